/** Ticks a second: a run's times are whole numbers of 0.1 ms after its anchor. */
export const TICKS_PER_SECOND = 10_000;

/** How the supply says it is regulating: constant volts, constant current, output off, neither. */
export type Regulation = 'cv' | 'cc' | 'off' | 'unregulated';

/**
 * One reading of the supply. `tick` is the middle of its request and response on the run's
 * monotonic clock; `null` means that the instrument did not tell.
 */
export interface Sample {
  readonly tick: number;
  readonly volts: number | null;
  readonly amps: number | null;
  readonly regulation: Regulation | null;
  readonly outputOn: boolean | null;
}

/**
 * A stretch of samples as columns of equal length. `NaN` stands for a reading that was not
 * taken; `regulation` holds `REGULATION_CODES` (0 = not told).
 */
export interface TraceColumns {
  readonly ticks: Float64Array;
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  readonly regulation: Uint8Array;
}

/** Codes of the regulation column, by index. */
export const REGULATION_CODES = [null, 'cv', 'cc', 'off', 'unregulated'] as const;

/**
 * A stretch reduced to at most one entry a screen column: lowest, highest and mean of each
 * quantity over `[fromTick, toTick)`. `count` 0 marks a column without samples (a gap).
 */
export interface TraceWindow {
  readonly fromTick: number;
  readonly toTick: number;
  readonly tick: Float64Array;
  readonly count: Float64Array;
  readonly voltsMin: Float64Array;
  readonly voltsMax: Float64Array;
  readonly voltsMean: Float64Array;
  readonly ampsMin: Float64Array;
  readonly ampsMax: Float64Array;
  readonly ampsMean: Float64Array;
}
