import { z } from 'zod';
import { WakelineError } from '../errors.ts';

/** What a tripped guard does: tells, or tells and switches the output off. */
const action = z.enum(['alert', 'off']);
export type GuardAction = z.infer<typeof action>;

/** Longest that a reading may lie beyond a limit before it trips, in seconds; 0 = at the first one. */
const holdS = z.number().finite().min(0).max(3600);
const above = z.number().finite().positive();

/** A limit on a reading: looked at before anything else sees the reading. */
export const readingLimit = z.discriminatedUnion('on', [
  z.strictObject({ on: z.literal('amps'), aboveA: above, holdS, action }),
  z.strictObject({ on: z.literal('volts'), aboveV: above, holdS, action }),
  z.strictObject({ on: z.literal('watts'), aboveW: above, holdS, action }),
  /** Energy since output on. */
  z.strictObject({ on: z.literal('energy'), aboveWh: above, action }),
  /** Time since output on. */
  z.strictObject({ on: z.literal('time'), aboveS: above, action }),
]);
export type ReadingLimit = z.infer<typeof readingLimit>;

/** A limit on what the draw does: looked at when the stages change. */
export const stageLimit = z.discriminatedUnion('on', [
  z.strictObject({ on: z.literal('cycling'), times: z.number().int().min(1), action }),
  z.strictObject({ on: z.literal('stalled'), forS: above, action }),
  z.strictObject({ on: z.literal('limited'), forS: above, action }),
  z.strictObject({ on: z.literal('fell-back'), action }),
]);
export type StageLimit = z.infer<typeof stageLimit>;

/** A guard that tripped: which reading or stage, beyond what limit, and what is done. */
export interface GuardTrip {
  readonly limit: ReadingLimit | StageLimit;
  readonly action: GuardAction;
  /** Seconds from the run's anchor. */
  readonly atS: number;
  /** In words and numbers: "0.512 A is above the guard's 0.5 A". */
  readonly text: string;
}

/** What this guard is, to be shown wherever a limit is set. */
export const GUARD_IS =
  'The guard watches readings at the poll period. It is supervision, not fault protection: a fault is faster than any poll. Set the supply’s own limits too.';

/**
 * Refuses a limit that the supply can never reach, because such a guard would never trip. Throws
 * `out-of-range`.
 */
export function checkReadingLimit(
  limit: ReadingLimit,
  supply: { readonly maxV: number | null; readonly maxA: number | null; readonly name: string },
): void {
  const { maxV, maxA } = supply;
  const maxW = maxV === null || maxA === null ? null : maxV * maxA;
  const [asked, max, unit] =
    limit.on === 'amps'
      ? [limit.aboveA, maxA, 'A']
      : limit.on === 'volts'
        ? [limit.aboveV, maxV, 'V']
        : limit.on === 'watts'
          ? [limit.aboveW, maxW, 'W']
          : [0, null, ''];
  if (max === null || asked <= max) return;
  throw new WakelineError({
    code: 'out-of-range',
    what: `A guard at ${asked} ${unit} never trips: this supply gives at most ${max} ${unit}`,
    where: supply.name,
    todo: `Enter a limit up to ${max} ${unit}.`,
  });
}
