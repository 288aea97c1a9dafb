import { parseArgs } from 'node:util';
import { WakelineError } from '../../core/errors.ts';
import { type TrackerSettings, UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import type { TraceFileOptions } from '../../core/trace/csv-options.ts';
import { readFileUnit } from '../../core/trace/csv-unit.ts';

/** What `cli stages` was asked to do. */
export interface StagesOptions {
  readonly file: string;
  readonly json: boolean;
  /** Rise times, ripple and uncertainties in the JSON as well. */
  readonly detail: boolean;
  readonly columns: TraceFileOptions;
  readonly settings: TrackerSettings;
}

export const STAGES_USAGE = `Usage: npm run cli -- stages FILE.csv [options]

Names the stages of a recorded draw. FILE.csv is any text table with a row a sample.

  --json              one JSON object on standard output, and nothing else
  --detail            with --json: rise time, ripple and uncertainties too
  --running-a A       running level of this board in amps
  --limit-a A         current limit of the supply
  --set-v V           set volts of the supply
  --running-v V       volts at which the running level was seen (else --set-v)
  --floor-a A         what this supply shows with nothing drawn
  --wakes-within-s S  how long good runs of this board take to run
  --runs-flat         this board is known to run flat
  --time COLUMN       a column by its heading, or by its number from 1
  --volts COLUMN
  --amps COLUMN
  --time-unit UNIT    s, ms, us; instead of what the heading says
  --volts-unit UNIT   V, mV
  --amps-unit UNIT    A, mA, uA
  --rate-hz N         evenly spaced samples: no time column is used
`;

const TEXT = { type: 'string' } as const;
const FLAG = { type: 'boolean' } as const;
const FLAGS = {
  json: FLAG,
  detail: FLAG,
  help: { type: 'boolean', short: 'h' },
  'runs-flat': FLAG,
  'running-a': TEXT,
  'limit-a': TEXT,
  'set-v': TEXT,
  'running-v': TEXT,
  'floor-a': TEXT,
  'wakes-within-s': TEXT,
  time: TEXT,
  volts: TEXT,
  amps: TEXT,
  'time-unit': TEXT,
  'volts-unit': TEXT,
  'amps-unit': TEXT,
  'rate-hz': TEXT,
} as const;

/** Reads the arguments of `cli stages`; null when help was asked for. Throws `bad-input`. */
export function stagesOptions(argv: readonly string[]): StagesOptions | null {
  const { values, positionals } = parsed(argv);
  if (values.help === true) return null;
  const [file, extra] = positionals;
  if (file === undefined) throw badArguments('No file was named', 'FILE.csv');
  if (extra !== undefined) throw badArguments('More than one file was named', extra);
  const amount = (flag: 'running-a' | 'limit-a' | 'set-v' | 'running-v' | 'wakes-within-s') =>
    positive(values[flag], flag);
  const rateHz = positive(values['rate-hz'], 'rate-hz');
  return {
    file,
    json: values.json === true,
    detail: values.detail === true,
    columns: {
      time: values.time,
      volts: values.volts,
      amps: values.amps,
      timeUnit: values['time-unit'],
      voltsUnit: values['volts-unit'],
      ampsUnit: values['amps-unit'],
      rateHz: rateHz ?? undefined,
    },
    settings: {
      ...UNKNOWN_BOARD,
      setV: amount('set-v'),
      limitA: amount('limit-a'),
      runningA: amount('running-a'),
      runningV: amount('running-v'),
      runsFlat: values['runs-flat'] === true ? true : null,
      zeroFloorA: number(values['floor-a'], 'floor-a'),
      wakesWithinS: amount('wakes-within-s'),
    },
  };
}

function parsed(argv: readonly string[]) {
  try {
    return parseArgs({ args: joinNegative(argv), options: FLAGS, allowPositionals: true });
  } catch (thrown) {
    const text = thrown instanceof Error ? thrown.message : String(thrown);
    throw badArguments(text.split('\n')[0]!.replace(/\.$/, ''), 'arguments');
  }
}

/** `--floor-a -0.0001`: a negative number after a flag is its value and not another flag. */
function joinNegative(argv: readonly string[]): string[] {
  const joined: string[] = [];
  for (const argument of argv) {
    const before = joined.at(-1);
    if (/^-\.?\d/.test(argument) && before !== undefined && /^--[a-z-]+$/.test(before)) {
      joined[joined.length - 1] = `${before}=${argument}`;
    } else {
      joined.push(argument);
    }
  }
  return joined;
}

/** A number with or without its unit: `0.4`, `400mA`, `12V`. */
function number(text: string | undefined, flag: string): number | null {
  if (text === undefined) return null;
  const match = /^([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*(\D*)$/i.exec(text.trim());
  const unit = match === null || match[2] === '' ? null : readFileUnit(match[2]!);
  if (match === null || (match[2] !== '' && unit === null)) {
    throw badArguments(`"${text}" is not a number`, `--${flag}`);
  }
  return Number(match[1]) * (unit?.scale ?? 1);
}

function positive(text: string | undefined, flag: string): number | null {
  const value = number(text, flag);
  if (value !== null && !(value > 0)) {
    throw badArguments(`"${text}" is not above zero`, `--${flag}`);
  }
  return value;
}

function badArguments(what: string, where: string): WakelineError {
  return new WakelineError({
    code: 'bad-input',
    what,
    where,
    todo: 'See npm run cli -- stages --help.',
  });
}
