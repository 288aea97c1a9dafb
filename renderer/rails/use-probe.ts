import type { JobWalk } from '../../core/rails/job-walk.ts';
import { formatReading } from '../../core/units/format-reading.ts';
import { shownDecimals } from '../../core/units/shown-decimals.ts';
import { useActions, useDesk } from '../state/use-desk.ts';
import { keyOf, type ProbeAim, pointRole, quantityOf, sayAim } from './probe-aim.ts';

interface Value {
  readonly value: number | null;
  readonly overload: boolean;
  readonly decimals: number | null;
}

/** What can be done at the point aimed at; each answers whether it was stored. */
export function useProbe(jobId: string, state: string | null, rails: JobWalk['rails']) {
  const { ask, say } = useActions();
  const { store } = useDesk();

  const keep = async (aim: ProbeAim, value: Value, source: 'meter' | 'typed'): Promise<boolean> => {
    const bench = store.get().bench;
    const quantity = quantityOf(aim);
    const isOn = bench?.supply.outputOn === true;
    const rail = rails.find((line) => line.rail.name === aim.rail)?.rail;
    const run = bench?.run ?? null;
    const place = sayPlace(aim, rail);
    const kept = await ask('addRailReading', {
      reading: {
        jobId,
        itemId: null,
        runId: run !== null && run.endedAt === null ? run.id : null,
        quantity,
        ...value,
        place,
        expectedLow: null,
        expectedHigh: null,
        source,
      },
      rail: aim.rail,
      point: pointRole(aim),
      against: aim.other,
      state: quantity === 'volts' ? state : null,
      // Typed volts may come from a supply that this bench does not switch.
      powered: isOn || (quantity === 'volts' && bench?.supply.link !== 'live'),
    });
    if (kept !== null) say(`Kept: ${formatReading(kept)}, ${sayAim(aim, rail)}.`);
    return kept !== null;
  };

  return {
    keep,
    /** Takes what the meter shows; puts it in the right function first when it is not. */
    take: async (aim: ProbeAim): Promise<boolean> => {
      const meter = store.get().bench?.meter;
      if (meter === undefined || meter.link !== 'live') return false;
      const quantity = quantityOf(aim);
      if (meter.quantity !== quantity) {
        await ask('meterFunction', { quantity });
        return false;
      }
      const { value, overload, decimals } = meter;
      if (value === null && !overload) return false;
      return keep(
        aim,
        {
          value: overload ? null : value,
          overload,
          decimals: shownDecimals(quantity, decimals, value),
        },
        'meter',
      );
    },
    cannotReach: async (aim: ProbeAim, cannot: boolean): Promise<void> => {
      await ask('cannotReach', { jobId, measurement: keyOf(aim), cannot });
    },
    markGood: (readingId: string, good: boolean) => ask('markReadingGood', { readingId, good }),
  };
}

export type Probe = ReturnType<typeof useProbe>;

function sayPlace(aim: ProbeAim, rail: JobWalk['rails'][number]['rail'] | undefined): string {
  const role = pointRole(aim);
  const point = rail?.points.find((one) => one.role === role && one.cost !== null)?.name;
  const name = role === 'output' ? aim.rail : `${aim.rail}, ${role}`;
  const place = point === undefined || point === aim.rail ? name : `${name} (${point})`;
  return aim.other === null ? place : `${place} to ${aim.other}`;
}
