import { WakelineError } from '../../core/errors.ts';
import type { MeterReading } from '../../core/instruments/meter.ts';
import { meterNoise, NOISE_READINGS } from '../../core/shorts/meter-noise.ts';

/** Gathers readings of a probe held still. */
export interface NoiseWatch {
  see(reading: MeterReading): void;
  /** The meter's noise in volts. Throws `no-answer` when too few readings in volts come. */
  measure(): Promise<number>;
}

const WAIT_MS = 15_000;

export function createNoiseWatch(): NoiseWatch {
  let gathered: number[] | null = null;
  let full: () => void = () => {};
  return {
    see({ quantity, value }) {
      if (gathered === null || quantity !== 'volts' || value === null) return;
      gathered.push(value);
      if (gathered.length >= NOISE_READINGS) full();
    },
    async measure() {
      gathered = [];
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, WAIT_MS);
        full = () => {
          clearTimeout(timer);
          resolve();
        };
      });
      const readings = gathered;
      gathered = null;
      if (readings.length < NOISE_READINGS) {
        throw new WakelineError({
          code: 'no-answer',
          what: `Only ${readings.length} readings in volts came within ${WAIT_MS / 1000} s`,
          where: 'meter',
          todo: 'Put the meter in DC volts, hold the probe on a point, and measure again.',
        });
      }
      return meterNoise(readings);
    },
  };
}
