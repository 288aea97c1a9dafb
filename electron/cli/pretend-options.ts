import { parseArgs } from 'node:util';
import { WakelineError } from '../../core/errors.ts';

/** What `pretend` was asked for. Paths and ports are null where not given. */
export interface PretendOptions {
  readonly serial: string | null;
  readonly tcp: number | null;
  readonly meter: boolean;
  readonly meterSerial: string | null;
  readonly meterTcp: number | null;
  readonly board: string | null;
  readonly seed: number;
  readonly hands: string | null;
}

/** How the verb is used. */
export const PRETEND_USAGE =
  'pretend --serial LINK | --tcp PORT [--board KEY] [--meter] [--meter-serial LINK] [--meter-tcp PORT] [--seed N] [--hands SOCKET]';

/** Reads the command line. Throws `bad-input` that says which argument is wrong. */
export function pretendOptions(argv: readonly string[]): PretendOptions {
  const { values } = parsed(argv);
  const options: PretendOptions = {
    serial: values.serial ?? null,
    tcp: wholeNumber('--tcp', values.tcp, 65_535),
    meter: values.meter ?? false,
    meterSerial: values['meter-serial'] ?? null,
    meterTcp: wholeNumber('--meter-tcp', values['meter-tcp'], 65_535),
    board: values.board ?? null,
    seed: wholeNumber('--seed', values.seed, 2 ** 31) ?? 1,
    hands: values.hands ?? null,
  };
  if (options.serial === null && options.tcp === null) {
    throw wrong('Neither --serial nor --tcp says where to put the instrument');
  }
  return options;
}

function parsed(argv: readonly string[]) {
  try {
    return parseArgs({
      args: [...argv],
      strict: true,
      options: {
        serial: { type: 'string' },
        tcp: { type: 'string' },
        board: { type: 'string' },
        meter: { type: 'boolean' },
        'meter-serial': { type: 'string' },
        'meter-tcp': { type: 'string' },
        seed: { type: 'string' },
        hands: { type: 'string' },
      },
    });
  } catch (cause) {
    throw wrong(cause instanceof Error ? cause.message : String(cause));
  }
}

function wholeNumber(flag: string, text: string | undefined, most: number): number | null {
  if (text === undefined) return null;
  const value = Number(text);
  if (text.trim() !== '' && Number.isInteger(value) && value >= 0 && value <= most) return value;
  throw wrong(`${flag} must be a whole number from 0 to ${most}, not "${text}"`);
}

function wrong(what: string): WakelineError {
  return new WakelineError({
    code: 'bad-input',
    what,
    where: 'pretend',
    todo: `Usage: ${PRETEND_USAGE}`,
  });
}
