import { WakelineError } from '../errors.ts';

/** Readings that a noise is told from. */
export const NOISE_READINGS = 12;
/** More scatter than this share of the reading is a probe that slips. */
const SLIP_SHARE = 0.01;
const SLIP_FLOOR_V = 1e-4;

/**
 * One standard deviation of a meter in volts, from readings with the probe held still: half the
 * mean square of the differences of neighbours (von Neumann 1941, from memory), which a slow drift of
 * a warming short does not swell.
 * @throws WakelineError `bad-input` with too few readings or a probe that slipped.
 */
export function meterNoise(readings: readonly number[]): number {
  const refuse = (what: string, todo: string): never => {
    throw new WakelineError({ code: 'bad-input', what, where: 'noise of the meter', todo });
  };
  if (readings.length < NOISE_READINGS) {
    refuse(
      `${readings.length} readings are too few to tell a noise from`,
      'Hold the probe still on one point until it is done.',
    );
  }
  let squares = 0;
  for (let at = 1; at < readings.length; at++) {
    squares += ((readings[at] ?? 0) - (readings[at - 1] ?? 0)) ** 2;
  }
  const sigmaV = Math.sqrt(squares / (2 * (readings.length - 1)));
  const sizeV = Math.max(...readings.map(Math.abs));
  if (sigmaV > Math.max(SLIP_FLOOR_V, SLIP_SHARE * sizeV)) {
    refuse('The readings jump: the probe slipped', 'Hold it still on one point and measure again.');
  }
  return sigmaV;
}
