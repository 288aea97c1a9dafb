import { z } from 'zod';
import type { Quantity } from '../job/job.ts';
import type { ProbePhase } from '../probing/probe-event.ts';
import type { BenchState } from './bench-calls.ts';
import { answers } from './call.ts';
import { id, line, quantity } from './fields.ts';

/** A point of the list: an open step of the checklist that asks for a reading. */
export interface ProbePoint {
  readonly itemId: string;
  readonly title: string;
  readonly place: string;
  readonly quantity: Quantity;
}

/**
 * A reading that was taken hands-free. `place` is empty until somebody names it; `readingId` is null
 * when it is told to the view that asked, which stores it in its own way.
 */
export interface ProbeTaken {
  readonly readingId: string | null;
  readonly itemId: string | null;
  readonly title: string;
  readonly place: string;
  readonly quantity: Quantity;
  readonly value: number | null;
  readonly overload: boolean;
  readonly decimals: number;
  readonly takenAt: number;
  /** It took the place of the reading before it. */
  readonly replaced: boolean;
}

/** How hands-free measuring stands. Sent on every change, not with every reading. */
export interface ProbeState {
  readonly along: 'off' | 'list' | 'free' | 'view';
  /** `checking` = the volts on the point are looked at before a resistance is kept. */
  readonly phase: ProbePhase | 'checking' | 'finished';
  /** Why the last touch was no reading, or what storing it ran into; null when all is well. */
  readonly why: string | null;
  readonly next: ProbePoint | null;
  /** Points still to be taken, the next one included. */
  readonly left: number;
  /** Newest first. */
  readonly taken: readonly ProbeTaken[];
  /** Grows with every reading taken or replaced: what a tone follows. */
  readonly takes: number;
  /** Grows with every touch that was no reading. */
  readonly refusals: number;
}

/** Calls about measuring without touching the keyboard: answered by main. */
export const probingCalls = {
  probeState: answers<ProbeState>()(z.object({})),
  /**
   * Along a list of points (null = every open step with a reading), free, or for a view that stores
   * what it is told. `quantity` = the function to measure in, for a view. Throws `not-connected`.
   */
  startProbing: answers<ProbeState>()(
    z.object({
      along: z.enum(['list', 'free', 'view']),
      itemIds: z.array(id).max(500).nullable(),
      quantity: quantity.nullable().optional(),
    }),
  ),
  stopProbing: answers<ProbeState>()(z.object({})),
  /** Takes what the meter shows now, settled or not: a dead rail, an open line. */
  forceProbe: answers<ProbeState>()(z.object({})),
  /** Takes the last reading back; its point is the next one again. */
  undoProbe: answers<ProbeState>()(z.object({})),
  /** Leaves the next point out for now: its step stays open. */
  skipProbe: answers<ProbeState>()(z.object({})),
  /** Names a reading taken free, by its place or by the step that it belongs to. */
  nameProbe: answers<ProbeState>()(
    z.object({ readingId: id, itemId: id.nullable(), place: line.min(1, 'name the place') }),
  ),
  /**
   * Output on for as long as the pedal is held: told again at least every second, off when it is
   * told false or no more. Throws as `outputOn`.
   */
  holdOutput: answers<BenchState>()(z.object({ isHeld: z.boolean() })),
} as const;

export interface ProbingEvents {
  probeChanged: ProbeState;
}
