import { parseArgs } from 'node:util';
import { WakelineError } from '../../core/errors.ts';

/** What to record, from where, for how long and where to. */
export interface CaptureOptions {
  readonly from:
    | { readonly by: 'serial'; readonly path: string; readonly baud: number }
    | { readonly by: 'tcp'; readonly host: string; readonly port: number };
  readonly seconds: number;
  readonly rateHz: number;
  readonly csv: string | null;
  readonly json: boolean;
}

export const CAPTURE_USAGE =
  'capture --port PATH [--baud N] | --tcp HOST:PORT --seconds N [--rate HZ] [--csv FILE] [--json]';

/** Reads the words after `capture`. Throws `bad-input` that names the option. */
export function captureOptions(argv: readonly string[]): CaptureOptions {
  let values: Record<string, string | boolean | undefined>;
  try {
    values = parseArgs({
      args: [...argv],
      options: {
        port: { type: 'string' },
        baud: { type: 'string' },
        tcp: { type: 'string' },
        seconds: { type: 'string' },
        rate: { type: 'string' },
        csv: { type: 'string' },
        json: { type: 'boolean' },
      },
    }).values;
  } catch (thrown) {
    const text = thrown instanceof Error ? thrown.message : String(thrown);
    throw wrong(text.split(/\. |\n/)[0]!, 'capture');
  }
  const { port, tcp, csv, json } = values;
  if ((port === undefined) === (tcp === undefined)) {
    throw wrong('Give one of --port and --tcp', 'capture');
  }
  return {
    from:
      typeof port === 'string'
        ? { by: 'serial', path: port, baud: number(values, 'baud', 300, 4_000_000, 9600) }
        : tcpFrom(String(tcp)),
    seconds: number(values, 'seconds', 0.1, 30 * 86_400),
    rateHz: number(values, 'rate', 0.01, 1000, 20),
    csv: typeof csv === 'string' ? csv : null,
    json: json === true,
  };
}

function tcpFrom(text: string): CaptureOptions['from'] {
  const parts = /^(.+):(\d{1,5})$/.exec(text);
  const port = Number(parts?.[2]);
  if (parts === null || port < 1 || port > 65_535) {
    throw wrong(`--tcp takes HOST:PORT, not "${text}"`, '--tcp');
  }
  return { by: 'tcp', host: parts[1]!.replace(/^\[(.*)\]$/, '$1'), port };
}

function number(
  values: Record<string, string | boolean | undefined>,
  name: string,
  low: number,
  high: number,
  usual?: number,
): number {
  const text = values[name];
  if (text === undefined && usual !== undefined) return usual;
  if (text === undefined) throw wrong(`--${name} is missing`, `--${name}`);
  const value = Number(text);
  if (text === '' || !Number.isFinite(value) || value < low || value > high) {
    throw wrong(`--${name} takes a number from ${low} to ${high}, not "${text}"`, `--${name}`);
  }
  return value;
}

function wrong(what: string, where: string): WakelineError {
  return new WakelineError({ code: 'bad-input', what, where, todo: `Usage: ${CAPTURE_USAGE}` });
}
