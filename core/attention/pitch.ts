import type { Followed } from './attention-settings.ts';

/** Where the pitch of each quantity begins and ends, in base units. */
const SPANS: Readonly<Record<Exclude<Followed, 'off'>, readonly [low: number, high: number]>> = {
  draw: [1e-3, 10],
  ohms: [0.01, 100e3],
  millivolts: [10e-6, 1],
};
/** Four octaves that small loudspeakers still give and ears still tell apart. */
const LOW_HZ = 110;
const OCTAVES = 4;

/**
 * The pitch in hertz for a reading: equal ratios are equal steps, so that half the ohms always
 * sound the same distance lower. Null where nothing is to be heard: no reading, an open lead.
 */
export function pitchOf(what: Exclude<Followed, 'off'>, value: number | null): number | null {
  if (value === null || !Number.isFinite(value)) return null;
  const [low, high] = SPANS[what];
  const within = Math.min(high, Math.max(low, Math.abs(value)));
  const share = Math.log(within / low) / Math.log(high / low);
  return LOW_HZ * 2 ** (OCTAVES * share);
}
