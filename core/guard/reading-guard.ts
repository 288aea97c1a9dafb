import { type Sample, TICKS_PER_SECOND } from '../trace/sample.ts';
import type { GuardTrip, ReadingLimit } from './guard-limit.ts';

/** Looks at each reading of a run, in order. */
export interface ReadingGuard {
  /**
   * Trips that this reading causes; mostly none. A limit trips once, and again after it was kept
   * to; one that switches off trips again each second that the output is on beyond it all the same.
   */
  see(sample: Sample): readonly GuardTrip[];
  /**
   * Other limits from now on. Energy and time since output on go on counting, and a limit that was
   * there before is not new: it does not trip again for what it has told already.
   */
  change(limits: readonly ReadingLimit[]): void;
}

/** A reading back under this share of its limit is kept to: noise at the limit trips once. */
const KEPT_SHARE = 0.98;
/** An output that is still on, or on again, this long after it was switched off is switched off again. */
const OFF_AGAIN_S = 1;

interface Watched {
  readonly limit: ReadingLimit;
  beyondSinceS: number | null;
  trippedAtS: number | null;
}

interface Totals {
  readonly onSinceS: number | null;
  readonly energyWh: number;
}

function maySay({ limit, trippedAtS }: Watched, sample: Sample, atS: number): boolean {
  if (trippedAtS === null) return true;
  const isOn = sample.outputOn !== false;
  return limit.action === 'off' && isOn && atS - trippedAtS >= OFF_AGAIN_S;
}

/** Significant digits enough to see by how much: 0.512, 12.6, 1250. */
const figure = (value: number) => String(Number(value.toPrecision(4)));

const holdsSinceOn = (limit: ReadingLimit) => limit.on === 'energy' || limit.on === 'time';

/** The quantity that a limit is on, and where it must not go. Null = not told by this reading. */
function measured(limit: ReadingLimit, sample: Sample, totals: Totals, atS: number) {
  const { volts, amps } = sample;
  const watts = volts === null || amps === null ? null : volts * amps;
  switch (limit.on) {
    case 'amps':
      return { value: amps, above: limit.aboveA, unit: 'A' };
    case 'volts':
      return { value: volts, above: limit.aboveV, unit: 'V' };
    case 'watts':
      return { value: watts, above: limit.aboveW, unit: 'W' };
    case 'energy':
      return { value: totals.energyWh, above: limit.aboveWh, unit: 'Wh' };
    case 'time': {
      const value = totals.onSinceS === null ? null : atS - totals.onSinceS;
      return { value, above: limit.aboveS, unit: 's' };
    }
  }
}

/**
 * A guard over the readings of one supply. Energy and time count from output on (from the first
 * reading when the output is not told); across a gap the larger of the two powers is taken, so
 * that a gap never hides energy.
 */
export function readingGuard(limits: readonly ReadingLimit[]): ReadingGuard {
  const watch = (limit: ReadingLimit): Watched => ({ limit, beyondSinceS: null, trippedAtS: null });
  let watched: readonly Watched[] = limits.map(watch);
  let onSinceS: number | null = null;
  let energyWh = 0;
  let last: { atS: number; watts: number } | null = null;

  function count(sample: Sample, atS: number): void {
    if (sample.outputOn === false) {
      onSinceS = null;
      last = null;
      return;
    }
    if (onSinceS === null) {
      onSinceS = atS;
      energyWh = 0;
      for (const one of watched) one.trippedAtS = null;
    }
    if (sample.volts === null || sample.amps === null) return;
    const watts = Math.max(0, sample.volts * sample.amps);
    if (last !== null) {
      const spanS = atS - last.atS;
      const mean = spanS > 1 ? Math.max(watts, last.watts) : (watts + last.watts) / 2;
      energyWh += (mean * spanS) / 3600;
    }
    last = { atS, watts };
  }

  return {
    change(next) {
      const before = new Map(watched.map((one) => [JSON.stringify(one.limit), one]));
      watched = next.map((limit) => before.get(JSON.stringify(limit)) ?? watch(limit));
    },
    see(sample) {
      const atS = sample.tick / TICKS_PER_SECOND;
      count(sample, atS);
      const trips: GuardTrip[] = [];
      for (const one of watched) {
        const { limit } = one;
        const { value, above, unit } = measured(limit, sample, { onSinceS, energyWh }, atS);
        if (value === null) continue;
        if (value <= above) {
          one.beyondSinceS = null;
          if (value < above * KEPT_SHARE) one.trippedAtS = null;
          continue;
        }
        one.beyondSinceS ??= atS;
        const heldS = atS - one.beyondSinceS;
        const holdS = 'holdS' in limit ? limit.holdS : 0;
        if (heldS < holdS || !maySay(one, sample, atS)) continue;
        one.trippedAtS = atS;
        const held = holdS > 0 ? ` for ${figure(heldS)} s` : '';
        const since = holdsSinceOn(limit) ? ' since output on' : '';
        const text = `${figure(value)} ${unit}${since} is above the guard's ${figure(above)} ${unit}${held}`;
        trips.push({ limit, action: limit.action, atS, text });
      }
      return trips;
    },
  };
}
