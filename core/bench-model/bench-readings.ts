import type { MeterFunction } from './probe-reading.ts';
import { createSeededRandom } from './seeded-random.ts';

/** Turns what is true into what the instruments show: their own errors, noise, and steps. */
export interface BenchReadings {
  supplyV(trueV: number): number;
  supplyA(trueA: number): number;
  meter(as: MeterFunction, trueValue: number): number;
  /** How far the supply's limit is off: 1 = exact. */
  readonly limitGain: number;
}

/**
 * The instruments' errors, fixed by the seed, and their noise: figures of middling bench
 * instruments (common practice, no source). `scale` 0 leaves only the steps: 1 mV and 1 mA on
 * the supply, five and a half digits on the meter.
 */
export function createBenchReadings(seed: number, scale: number): BenchReadings {
  const build = createSeededRandom(seed, 'instrument build');
  const noise = createSeededRandom(seed, 'instrument noise');
  const voltsGain = 1 + scale * 3e-4 * build.normal();
  const voltsOffset = scale * 1e-3 * build.normal();
  const ampsGain = 1 + scale * 1e-3 * build.normal();
  // Nothing drawn reads as anything from -0.15 mA to a few milliamps, fixed for an instrument.
  const ampsOffset = scale * (-0.15e-3 + 2.5e-3 * build.even());
  const meterGain = 1 + scale * 5e-5 * build.normal();

  const limitGain = 1 + scale * 5e-3 * build.normal();
  // Contacts of two metals and the input itself: what a zero-current reading is there to take off.
  const contactV = scale * (8e-6 + 4e-6 * build.even());

  return {
    limitGain,
    supplyV: (trueV) =>
      step(trueV * voltsGain + voltsOffset + scale * 0.5e-3 * noise.normal(), 1e-3),
    supplyA: (trueA) =>
      step(trueA * ampsGain + ampsOffset + scale * 0.35e-3 * noise.normal(), 1e-3),
    meter(as, trueValue) {
      const value = trueValue * meterGain + (as === 'VOLT' ? contactV : 0);
      const full = rangeOf(as, Math.abs(value));
      return step(value + scale * full * 1.5e-5 * noise.normal(), full * 1e-5);
    },
  };
}

function rangeOf(as: MeterFunction, size: number): number {
  const smallest = as === 'VOLT' ? 0.1 : as === 'DIOD' ? 1 : 100;
  let full = smallest;
  while (size > 1.2 * full) full *= 10;
  return full;
}

function step(value: number, size: number): number {
  return Math.round(value / size) * size;
}
