import { open } from 'node:fs/promises';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import type { Supply, SupplyReading } from '../../core/instruments/supply.ts';
import type { Connected } from '../bench/connected-instrument.ts';
import { connectSupply } from '../bench/connected-supply.ts';
import { monotonicClock } from '../bench/monotonic-clock.ts';
import { openSerialLink } from '../bench/serial-link.ts';
import { openTcpLink } from '../bench/tcp-link.ts';
import { type CaptureOptions, captureOptions } from './capture-options.ts';

const HEADER = 'time_s,volts_v,amps_a,regulation,output';

/**
 * Records from a supply without a window, with queries only. CSV to a file or to standard output;
 * with `--json` a summary instead of rows on standard output. Returns the exit code: 0, 1 when the
 * instrument failed, 2 for bad input, with one line on standard error.
 */
export async function capture(argv: readonly string[]): Promise<number> {
  try {
    const options = captureOptions(argv);
    const summary = await record(options);
    if (options.json) process.stdout.write(`${JSON.stringify(summary)}\n`);
    if (summary.samples > 0) return 0;
    process.stderr.write('capture: no reading was taken\n');
    return 1;
  } catch (thrown) {
    const { code, what, where, todo } = troubleOf(thrown, 'capture');
    process.stderr.write(`capture: ${what} (${where}). ${todo}\n`);
    return code === 'bad-input' || code === 'file-not-written' ? 2 : 1;
  }
}

interface Summary {
  readonly instrument: string;
  readonly dialect: string;
  readonly samples: number;
  readonly durationS: number;
  readonly rateHz: number;
  readonly missed: number;
  readonly lost: number;
}

async function record(options: CaptureOptions): Promise<Summary> {
  const { from } = options;
  // A file that is there is somebody's recording: never written over.
  const file = options.csv === null ? null : await newFile(options.csv);
  const put = (row: string) => {
    if (file !== null) file.write(`${row}\n`);
    else if (!options.json) process.stdout.write(`${row}\n`);
  };
  let startMs = Number.NaN;
  let endMs = 0;
  let samples = 0;
  let lost = 0;
  let supply: Connected<Supply> | null = null;
  const say = (text: string) => process.stderr.write(`capture: ${text}\n`);
  try {
    supply = await connectSupply({
      open: () =>
        from.by === 'serial'
          ? openSerialLink(from.path, from.baud)
          : openTcpLink(from.host, from.port),
      clock: monotonicClock,
      intervalMs: 1000 / options.rateHz,
      onReading(reading, at) {
        if (Number.isNaN(startMs)) {
          startMs = at.midMs;
          put(HEADER);
        }
        endMs = at.midMs;
        samples += 1;
        put(row(reading, (at.midMs - startMs) / 1000, supply?.driver));
      },
      onTrouble: (trouble) => say(`${trouble.what} (${trouble.where})`),
      onLost(trouble) {
        lost += 1;
        say(`${trouble.what} (${trouble.where}); looking for it`);
      },
      onBack: () => say('it is back'),
    });
    await untilOver(options.seconds);
    const summary: Summary = {
      instrument: supply.driver.identity,
      dialect: supply.driver.dialect,
      samples,
      durationS: samples === 0 ? 0 : (endMs - startMs) / 1000,
      rateHz: samples < 2 ? 0 : ((samples - 1) * 1000) / (endMs - startMs),
      missed: supply.missed,
      lost,
    };
    await supply.close();
    return summary;
  } finally {
    await file?.end();
  }
}

/** One reading as a row; a value that was not told stays empty. */
function row(reading: SupplyReading, atS: number, supply: Supply | undefined): string {
  const { volts, amps, regulation, outputOn } = reading;
  return [
    atS.toFixed(4),
    volts?.toFixed(supply?.voltsDecimals ?? 6) ?? '',
    amps?.toFixed(supply?.ampsDecimals ?? 6) ?? '',
    regulation ?? '',
    outputOn === null ? '' : outputOn ? 'on' : 'off',
  ].join(',');
}

/** Waits out the time, or until the person stops it. */
function untilOver(seconds: number): Promise<void> {
  return new Promise((resolve) => {
    const over = () => {
      clearTimeout(timer);
      process.off('SIGINT', over);
      process.off('SIGTERM', over);
      resolve();
    };
    const timer = setTimeout(over, seconds * 1000);
    process.on('SIGINT', over);
    process.on('SIGTERM', over);
  });
}

interface RowFile {
  write(text: string): void;
  end(): Promise<void>;
}

/** A new file that rows are appended to as they come, so that a stop at any moment keeps them. */
async function newFile(path: string): Promise<RowFile> {
  try {
    const handle = await open(path, 'wx');
    let written: Promise<unknown> = Promise.resolve();
    let failure: unknown = null;
    return {
      write(text) {
        written = written
          .then(() => (failure === null ? handle.appendFile(text) : undefined))
          .catch((cause) => {
            failure = cause;
          });
      },
      async end() {
        await written;
        await handle.close();
        if (failure !== null) throw notWritten(path, failure);
      },
    };
  } catch (cause) {
    throw notWritten(path, cause);
  }
}

function notWritten(path: string, cause: unknown): WakelineError {
  const text = cause instanceof Error ? cause.message : String(cause);
  const isThere = /EEXIST/.test(text);
  return new WakelineError(
    {
      code: 'file-not-written',
      what: isThere ? 'There is a file of this name already' : `It was not written: ${text}`,
      where: path,
      todo: isThere
        ? 'Choose another name; nothing was changed.'
        : 'Check the folder and the disk.',
    },
    { cause },
  );
}
