import type { TraceColumns } from '../../../core/trace/sample.ts';

/** A staircase: from which second on which amps are drawn. */
export type Staircase = readonly (readonly [fromS: number, amps: number])[];

/** How one run of a board differs from the next. */
export interface RunTwist {
  readonly stretch?: number;
  readonly addedA?: number;
  readonly volts?: number;
  /** Feed volts at which the amps are given; watts stay the same at others. */
  readonly ownVolts?: number;
  readonly lateS?: number;
  readonly seconds?: number;
  readonly withVolts?: boolean;
  readonly noise?: () => number;
}

/** A run of a board with that staircase, 20 samples a second. */
export function inventedRun(stairs: Staircase, twist: RunTwist = {}): TraceColumns {
  const { stretch = 1, addedA = 0, volts = 12, ownVolts = 12, lateS = 0, seconds = 30 } = twist;
  const count = Math.round(seconds * 20);
  const times = Array.from({ length: count }, (_, i) => i / 20);
  const amps = times.map((time) => {
    const own = stairs.findLast(([fromS]) => (time - lateS) / stretch >= fromS)?.[1] ?? 0;
    return (own * ownVolts) / volts + addedA + (twist.noise?.() ?? 0) * 0.001;
  });
  return {
    ticks: Float64Array.from(times, (time) => time * 10_000),
    volts: new Float64Array(count).fill(twist.withVolts === false ? Number.NaN : volts),
    amps: Float64Array.from(amps),
    regulation: new Uint8Array(count),
  };
}

/** A small generator of numbers from 0 to 1 (xorshift), so that tests repeat. */
export function randomSource(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

/** A staircase of two to six levels. */
export function inventedStairs(random: () => number): Staircase {
  const stairs: [number, number][] = [];
  let time = 0;
  let level = 0.01 + random() * 0.05;
  const count = 2 + Math.floor(random() * 5);
  for (let i = 0; i < count; i += 1) {
    stairs.push([time, level]);
    time += 0.3 + random() * 4;
    level = random() < 0.8 ? level + 0.02 + random() * 0.4 : Math.max(0.01, level * random());
  }
  return stairs;
}
