import { z } from 'zod';
import { instrumentAddress } from '../../core/contract/bench-calls.ts';
import { guardPolicy } from '../../core/guard/guard-settings.ts';
import { switchOff } from '../../core/instruments/switch-off.ts';

/** One supply that the watcher may have to switch off. */
export const watchedSupply = z.strictObject({
  address: instrumentAddress,
  /** Other names of the same port, which may outlive this one. */
  also: z.array(z.string().max(400)).max(16),
  how: switchOff,
  /** Whether its output is, or is about to be, on. */
  isOn: z.boolean(),
});
export type WatchedSupply = z.infer<typeof watchedSupply>;

/** What the watcher is to do when it comes to it. Each order replaces the one before. */
export const watchOrder = z.strictObject({
  policy: guardPolicy,
  supplies: z.array(watchedSupply).max(16),
  runId: z.string().max(80).nullable(),
});
export type WatchOrder = z.infer<typeof watchOrder>;

/** Lines from main to the watcher. */
export const toWatcher = z.discriminatedUnion('say', [
  z.strictObject({ say: z.literal('order'), sequence: z.number().int(), order: watchOrder }),
  z.strictObject({ say: z.literal('beat') }),
  z.strictObject({ say: z.literal('goodbye') }),
]);
export type ToWatcher = z.infer<typeof toWatcher>;

const offResult = z.enum(['read-back-off', 'told', 'stays-on', 'silent', 'another']);

/** What the watcher did about one supply. */
const watchedOutcome = z.strictObject({
  name: z.string(),
  identity: z.string(),
  /** `not-opened` = the way to it could not be opened so far. */
  result: z.union([offResult, z.literal('not-opened')]),
  tries: z.number().int(),
  /** From noticing to the first OFF handed to the port; null = none was. */
  offAfterMs: z.number().nullable(),
  /** From noticing to the last result. */
  tookMs: z.number(),
});
export type WatchedOutcome = z.infer<typeof watchedOutcome>;

/** What the watcher saw and did: kept in a file, shown by the next start. */
export const watchNote = z.strictObject({
  /** UTC milliseconds. */
  at: z.number(),
  why: z.enum(['main-died', 'main-hung']),
  runId: z.string().nullable(),
  /** Whether it ended a hung main to get at the port. */
  endedMain: z.boolean(),
  isDone: z.boolean(),
  supplies: z.array(watchedOutcome),
});
export type WatchNote = z.infer<typeof watchNote>;

/** Lines from the watcher to main. */
export const toMain = z.discriminatedUnion('say', [
  z.strictObject({ say: z.literal('hello'), token: z.string() }),
  /** Has this order and can carry it out. */
  z.strictObject({ say: z.literal('ready'), sequence: z.number().int() }),
  z.strictObject({ say: z.literal('beat') }),
  z.strictObject({ say: z.literal('acted'), note: watchNote }),
]);
export type ToMain = z.infer<typeof toMain>;

/** Longest line that either side believes: an order of 16 supplies is far shorter. */
const LONGEST_LINE = 256 * 1024;

/** Cuts a stream of text into lines, each checked; what does not fit is dropped. */
export function readLines<T>(schema: z.ZodType<T>, onLine: (line: T) => void) {
  let held = '';
  return (piece: Buffer | string): void => {
    held += piece.toString();
    for (let at = held.indexOf('\n'); at >= 0; at = held.indexOf('\n')) {
      const text = held.slice(0, at);
      held = held.slice(at + 1);
      const parsed = schema.safeParse(parseJson(text));
      if (parsed.success) onLine(parsed.data);
    }
    if (held.length > LONGEST_LINE) held = '';
  };
}

export function lineOf(line: ToMain | ToWatcher): string {
  return `${JSON.stringify(line)}\n`;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
