import { scaleLinear } from 'd3-scale';

export interface ValueAxis {
  readonly low: number;
  readonly high: number;
}

/** Shares of the plot's height: the draw on top and large, the volts under it. */
export const LANES = { amps: 0.68, gap: 0.06, volts: 0.26 } as const;

const HEADROOM = 1.12;
const SHRINK_BELOW = 0.45;

/**
 * An axis that holds still: grows at once when a value leaves it, shrinks only when the values
 * fill less than half of it. `least` is the smallest height worth showing.
 */
export function steadyAxis(
  before: ValueAxis | null,
  min: number,
  max: number,
  least: number,
): ValueAxis {
  const high = niceCeiling(Math.max(least, max * HEADROOM));
  const low = min < -least / 2 ? -niceCeiling(-min * HEADROOM) : 0;
  if (before === null) return { low, high };
  const keepsHigh = max <= before.high && high > before.high * SHRINK_BELOW;
  const keepsLow = min >= before.low && (before.low === 0 || low < before.low * SHRINK_BELOW);
  if (keepsHigh && keepsLow) return before;
  return { low: keepsLow ? before.low : low, high: keepsHigh ? before.high : high };
}

/** The next of 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8 times a power of ten. */
export function niceCeiling(value: number): number {
  if (!(value > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(value));
  const step =
    [1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10].find((s) => s * power >= value * (1 - 1e-9)) ?? 10;
  return Number((step * power).toPrecision(2));
}

/** The domain that puts the amps axis into the top lane of the whole plot height. */
export function ampsDomain(axis: ValueAxis): [number, number] {
  const span = axis.high - axis.low;
  return [axis.high - span / LANES.amps, axis.high];
}

/** The domain that puts the volts axis into the bottom lane. */
export function voltsDomain(axis: ValueAxis): [number, number] {
  const span = axis.high - axis.low;
  return [axis.low, axis.low + span / LANES.volts];
}

export function axisTicks(axis: ValueAxis, count: number): number[] {
  return scaleLinear([axis.low, axis.high], [0, 1]).ticks(count);
}

/** Digits after the point that tell neighbouring ticks apart. */
export function tickDecimals(values: readonly number[]): number {
  if (values.length < 2) return 2;
  const step = Math.abs(values[1]! - values[0]!);
  return step <= 0 ? 2 : Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
}
