import type { GuardAction, ReadingLimit, StageLimit } from '../../core/guard/guard-limit.ts';
import type { GuardSettings, OwnProtection } from '../../core/guard/guard-settings.ts';
import { parseQuantity } from '../../core/units/parse.ts';

/** One line of the form: what is guarded, in which unit, for how long, and what a trip does. */
export interface GuardRow {
  readonly on: ReadingLimit['on'] | StageLimit['on'];
  readonly words: string;
  /** Unit of the limit; '' = the line has no number. */
  readonly unit: 'A' | 'V' | 'W' | 'Wh' | 's' | 'times' | '';
  readonly canHold: boolean;
}

export const READING_ROWS: readonly GuardRow[] = [
  { on: 'amps', words: 'Amps above', unit: 'A', canHold: true },
  { on: 'volts', words: 'Volts above', unit: 'V', canHold: true },
  { on: 'watts', words: 'Watts above', unit: 'W', canHold: true },
  { on: 'energy', words: 'Energy since output on', unit: 'Wh', canHold: false },
  { on: 'time', words: 'Time since output on', unit: 's', canHold: false },
];

export const STAGE_ROWS: readonly GuardRow[] = [
  { on: 'cycling', words: 'Cycling, rounds', unit: 'times', canHold: false },
  { on: 'stalled', words: 'Stalled for', unit: 's', canHold: false },
  { on: 'limited', words: 'At the current limit for', unit: 's', canHold: false },
  { on: 'fell-back', words: 'Falls back', unit: '', canHold: false },
];

/** What stands in a line's fields. No action = the line guards nothing. */
export interface RowText {
  readonly limit: string;
  readonly hold: string;
  readonly action: GuardAction | 'none';
}

export interface GuardForm {
  readonly rows: Readonly<Record<GuardRow['on'], RowText>>;
  readonly overV: string;
  readonly overA: string;
}

const NOTHING: RowText = { limit: '', hold: '', action: 'none' };
const text = (value: number | null) => (value === null ? '' : String(value));

function limitOf(limit: ReadingLimit | StageLimit): number | null {
  switch (limit.on) {
    case 'amps':
      return limit.aboveA;
    case 'volts':
      return limit.aboveV;
    case 'watts':
      return limit.aboveW;
    case 'energy':
      return limit.aboveWh;
    case 'time':
      return limit.aboveS;
    case 'cycling':
      return limit.times;
    case 'stalled':
    case 'limited':
      return limit.forS;
    case 'fell-back':
      return null;
  }
}

/** The form's text for settings. */
export function guardFormOf(settings: GuardSettings): GuardForm {
  const rowOf = (on: GuardRow['on']): RowText => {
    const limit = [...settings.readings, ...settings.stages].find((one) => one.on === on);
    if (limit === undefined) return NOTHING;
    const hold = 'holdS' in limit && limit.holdS > 0 ? text(limit.holdS) : '';
    return { limit: text(limitOf(limit)), hold, action: limit.action };
  };
  return {
    rows: {
      amps: rowOf('amps'),
      volts: rowOf('volts'),
      watts: rowOf('watts'),
      energy: rowOf('energy'),
      time: rowOf('time'),
      cycling: rowOf('cycling'),
      stalled: rowOf('stalled'),
      limited: rowOf('limited'),
      'fell-back': rowOf('fell-back'),
    },
    overV: text(settings.own.overV),
    overA: text(settings.own.overA),
  };
}

/** What was wrong with a line, for the person who typed it. */
export interface GuardWrong {
  readonly at: GuardRow['on'] | 'overV' | 'overA';
  readonly what: string;
}

interface Limits {
  readonly readings: ReadingLimit[];
  readonly stages: StageLimit[];
  readonly own: OwnProtection;
}

function positive(typed: string, unit: GuardRow['unit']): number | string {
  if (unit === 'A' || unit === 'V' || unit === 'W') {
    const parsed = parseQuantity(typed, unit);
    if (!parsed.ok) return `${parsed.what}. ${parsed.todo}`;
    if (parsed.value === null || parsed.value <= 0) return 'A limit is a number above zero.';
    return parsed.value;
  }
  const value = Number(typed.trim().replace(',', '.'));
  if (!Number.isFinite(value) || value <= 0) return 'A limit is a number above zero.';
  if (unit === 'times' && !Number.isInteger(value)) return 'Rounds are counted in whole numbers.';
  return value;
}

function readingOf(on: ReadingLimit['on'], value: number, holdS: number, action: GuardAction) {
  const limits: Record<ReadingLimit['on'], ReadingLimit> = {
    amps: { on: 'amps', aboveA: value, holdS, action },
    volts: { on: 'volts', aboveV: value, holdS, action },
    watts: { on: 'watts', aboveW: value, holdS, action },
    energy: { on: 'energy', aboveWh: value, action },
    time: { on: 'time', aboveS: value, action },
  };
  return limits[on];
}

function stageOf(on: StageLimit['on'], value: number, action: GuardAction) {
  const limits: Record<StageLimit['on'], StageLimit> = {
    cycling: { on: 'cycling', times: value, action },
    stalled: { on: 'stalled', forS: value, action },
    limited: { on: 'limited', forS: value, action },
    'fell-back': { on: 'fell-back', action },
  };
  return limits[on];
}

/** The limits that the form asks for, or the first line that cannot be read. */
export function limitsOfForm(form: GuardForm): Limits | GuardWrong {
  const readings: ReadingLimit[] = [];
  const stages: StageLimit[] = [];
  for (const { on, unit } of READING_ROWS) {
    const { limit, hold, action } = form.rows[on];
    if (action === 'none') continue;
    const value = positive(limit, unit);
    if (typeof value === 'string') return { at: on, what: value };
    const holdS = hold.trim() === '' ? 0 : Number(hold.trim().replace(',', '.'));
    if (!(holdS >= 0 && holdS <= 3600)) return { at: on, what: 'It may last 0 to 3600 s.' };
    readings.push(readingOf(on as ReadingLimit['on'], value, holdS, action));
  }
  for (const { on, unit } of STAGE_ROWS) {
    const { limit, action } = form.rows[on];
    if (action === 'none') continue;
    const value = unit === '' ? 0 : positive(limit, unit);
    if (typeof value === 'string') return { at: on, what: value };
    stages.push(stageOf(on as StageLimit['on'], value, action));
  }
  const own = { overV: null as number | null, overA: null as number | null };
  for (const [at, unit] of [
    ['overV', 'V'],
    ['overA', 'A'],
  ] as const) {
    if (form[at].trim() === '') continue;
    const value = positive(form[at], unit);
    if (typeof value === 'string') return { at, what: value };
    own[at] = value;
  }
  return { readings, stages, own };
}

export function isGuardWrong(read: Limits | GuardWrong): read is GuardWrong {
  return 'at' in read;
}
