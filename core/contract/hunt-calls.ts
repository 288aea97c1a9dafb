import { z } from 'zod';
import type { Hunt } from '../shorts/hunt.ts';
import type { HuntGradient } from '../shorts/hunt-gradient.ts';
import type { InjectionPlan, Joint, ReachedThing } from '../shorts/injection.ts';
import { answers } from './call.ts';
import { amps, id, line, volts } from './fields.ts';

/** A hunt, and where its readings say that the current goes. */
export interface HuntWhole {
  readonly hunt: Hunt;
  readonly found: HuntGradient;
}

/** A plan, with what it was made from, so that a person can check it. */
export interface HuntPlan {
  readonly plan: InjectionPlan;
  readonly reach: readonly ReachedThing[];
  readonly joints: readonly Joint[];
  /** Ohms of the rail to ground with the leads taken off; null when not measured. */
  readonly ohmToGround: number | null;
  readonly isCore: boolean;
}

const reading = z.number().finite().min(-1000).max(1000);
const share = z.number().min(0).max(1);
const pointFields = z.object({
  name: line.min(1, 'name the point'),
  alongMm: z.number().finite().min(0).max(10_000).nullable(),
  onPicture: z.object({ pictureId: id, x: share, y: share }).nullable(),
});
export type HuntPointFields = z.infer<typeof pointFields>;

/** Calls about hunts for a short: answered by the ledger worker. */
export const huntCalls = {
  /** Hunts of a job, oldest first. */
  listHunts: answers<readonly HuntWhole[]>()(z.object({ jobId: id })),
  /** Begins a hunt; its points are those where the board's table touches the rail. */
  beginHunt: answers<HuntWhole>()(z.object({ jobId: id, rail: line.min(1, 'name the rail') })),
  /** Changes what is given; what is left out stays. */
  changeHunt: answers<HuntWhole>()(
    z.object({
      huntId: id,
      reference: line.min(1, 'name the reference').optional(),
      lead: z
        .object({
          ohm: z.number().finite().min(0).max(10),
          from: z.enum(['measured', 'typed']),
        })
        .nullable()
        .optional(),
      meterSigmaV: z.number().finite().min(0).max(1).nullable().optional(),
      mostA: amps.positive().nullable().optional(),
      ratings: z
        .array(z.object({ name: line.min(1), standsV: volts.positive() }))
        .max(50)
        .optional(),
    }),
  ),
  deleteHunt: answers<null>()(z.object({ huntId: id })),
  addHuntPoint: answers<HuntWhole>()(z.object({ huntId: id, point: pointFields })),
  changeHuntPoint: answers<HuntWhole>()(z.object({ pointId: id, point: pointFields })),
  /** Takes a point away, with its readings. */
  removeHuntPoint: answers<HuntWhole>()(z.object({ pointId: id })),
  addHuntReading: answers<HuntWhole>()(
    z.object({
      pointId: id,
      volts: reading,
      decimals: z.number().int().min(0).max(12).nullable(),
      /** Current that flowed; 0 = the output was off. */
      amps,
      source: z.enum(['meter', 'typed']),
    }),
  ),
  forgetHuntReading: answers<HuntWhole>()(z.object({ readingId: id })),
  /** What injecting would be like now; refusals included. Changes nothing. */
  planHunt: answers<HuntPlan>()(
    z.object({
      huntId: id,
      supply: z.object({ mostV: volts, mostA: amps }),
      cellAttached: z.boolean().nullable(),
    }),
  ),
  /** Keeps what the readings say now as a finding of the job. Throws `bad-input` when they say nothing. */
  concludeHunt: answers<HuntWhole>()(z.object({ huntId: id })),
} as const;
