import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';

/** A run on the common time of a comparison: its ticks are `shiftTicks` later there. */
export interface PlacedRun {
  readonly id: string;
  readonly shiftTicks: number;
  /** Where it ends on the common time. */
  readonly endTick: number;
}

/** The common time of a comparison: all runs on it begin at tick 0 or later. */
export interface CommonTime {
  readonly runs: readonly PlacedRun[];
  /** Tick of the moment that all runs are aligned at. */
  readonly zeroTick: number;
  readonly endTick: number;
}

/**
 * Lays runs over one another at their zero (seconds of their own time; null = their start) and
 * moves all of them so that the earliest begins at tick 0.
 */
export function commonTime(
  runs: readonly {
    readonly id: string;
    readonly zeroS: number | null;
    readonly durationS: number;
  }[],
): CommonTime {
  const zeros = runs.map(({ zeroS }) => Math.round((zeroS ?? 0) * TICKS_PER_SECOND));
  const zeroTick = Math.max(0, ...zeros);
  const placed = runs.map(({ id, durationS }, i) => {
    const shiftTicks = zeroTick - zeros[i]!;
    return { id, shiftTicks, endTick: Math.ceil(durationS * TICKS_PER_SECOND) + shiftTicks };
  });
  return { runs: placed, zeroTick, endTick: Math.max(0, ...placed.map((run) => run.endTick)) };
}
