import type { SeededRandom } from '../../core/bench-model/seeded-random.ts';
import type { Quantity } from '../../core/job/job.ts';
import type { WatchedReading } from '../../core/probing/probe-event.ts';

/** How one invented touch goes. Times are ms after the tip first meets the point. */
export interface SimulatedTouch {
  readonly quantity: 'volts' | 'ohms' | 'diode';
  /** What the point ends up at. */
  readonly truth: number;
  /** Standard deviation of one reading. */
  readonly noise: number;
  readonly chatterMs: number;
  /** A slip off the point, to the air (null) or to a neighbour. */
  readonly slip: {
    readonly atMs: number;
    readonly forMs: number;
    readonly to: number | null;
  } | null;
  /** The point rises to its end: from a share of it, with a time constant. */
  readonly rise: { readonly fromShare: number; readonly tauMs: number } | null;
  /** Readings spoilt while the meter looks for its range. */
  readonly ranging: number;
  readonly airBeforeMs: number;
}

/** A meter that averages what its tip sees and shows it at a cadence. */
export interface SimulatedMeter {
  readonly intervalMs: number;
  /** Share of the interval over which it averages. */
  readonly aperture: number;
  readonly decimals: number;
}

const STEP_MS = 4;
const POWERLESS_OPEN_SHARE = 0.25;

/** The reading at `endMs` of a tip that sees `at(ms)`; null = the air. */
export function meterReading(
  meter: SimulatedMeter,
  quantity: Quantity,
  at: (ms: number) => number | null,
  endMs: number,
  noise: number,
): { value: number | null; overload: boolean } {
  const spanMs = meter.intervalMs * meter.aperture;
  let sum = 0;
  let open = 0;
  let count = 0;
  for (let ms = endMs - spanMs; ms < endMs; ms += STEP_MS) {
    const seen = at(ms);
    count += 1;
    if (seen === null) open += 1;
    else sum += seen;
  }
  const openShare = open / count;
  if (quantity !== 'volts') {
    // The meter's own current has nowhere to go in the air: its input runs to the rail.
    if (openShare > POWERLESS_OPEN_SHARE) return { value: null, overload: true };
    const mean = sum / Math.max(1, count - open);
    return { value: shown(mean * (1 + 6 * openShare) + noise, meter.decimals), overload: false };
  }
  return { value: shown(sum / count + noise, meter.decimals), overload: false };
}

function shown(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale;
}

/** What the tip sees of a touch: chatter, then contact, then perhaps a slip, on a point that rises. */
export function tipOf(
  touch: SimulatedTouch,
  random: SeededRandom,
): { at: (ms: number) => number | null; cleanFromMs: number } {
  const bounces: { from: number; to: number }[] = [];
  let ms = 0;
  while (ms < touch.chatterMs) {
    const made = 5 + 40 * random.even();
    const broken = 5 + 40 * random.even();
    bounces.push({ from: ms + made, to: Math.min(touch.chatterMs, ms + made + broken) });
    ms += made + broken;
  }
  const { slip, rise, truth } = touch;
  return {
    at(t) {
      if (t < 0) return null;
      if (bounces.some((one) => t >= one.from && t < one.to)) return null;
      if (slip !== null && t >= slip.atMs && t < slip.atMs + slip.forMs) return slip.to;
      if (rise === null) return truth;
      return truth * (1 - (1 - rise.fromShare) * Math.exp(-t / rise.tauMs));
    },
    cleanFromMs: Math.max(touch.chatterMs, slip === null ? 0 : slip.atMs + slip.forMs),
  };
}

/** Draws a touch. `kind` chooses what happens in it; the rest is by chance. */
export function drawTouch(
  random: SeededRandom,
  kind: 'plain' | 'chatter' | 'slip' | 'slow' | 'ranging' | 'noisy',
  quantity: SimulatedTouch['quantity'],
): SimulatedTouch {
  const pick = (low: number, high: number) => low * (high / low) ** random.even();
  const truth =
    quantity === 'volts' ? pick(0.6, 24) : quantity === 'ohms' ? pick(0.4, 60e3) : pick(0.25, 0.9);
  const noiseShare = kind === 'noisy' ? pick(3e-4, 6e-3) : pick(3e-6, 2e-4);
  const isSlow = kind === 'slow';
  return {
    quantity,
    truth,
    noise: noiseShare * truth,
    chatterMs: kind === 'chatter' ? 80 + 500 * random.even() : 30 * random.even(),
    slip:
      kind === 'slip'
        ? {
            atMs: 100 + 900 * random.even(),
            forMs: 30 + 300 * random.even(),
            to: random.even() < 0.5 ? null : truth * pick(0.2, 4),
          }
        : null,
    rise: isSlow ? { fromShare: 0.9 * random.even(), tauMs: pick(150, 5000) } : null,
    ranging: kind === 'ranging' ? 1 + Math.floor(2 * random.even()) : 0,
    airBeforeMs: 1200 + 1500 * random.even(),
  };
}

/** Dresses a reading as the watch sees it, on a dead board. */
export function watched(
  quantity: Quantity,
  reading: { value: number | null; overload: boolean },
  meter: SimulatedMeter,
  tMs: number,
): WatchedReading {
  return { quantity, ...reading, decimals: meter.decimals, tMs, outputOn: false, feedV: 0 };
}
