import type { ChecklistItem } from '../../core/job/job.ts';
import { shownDecimals } from '../../core/units/shown-decimals.ts';
import { useActions, useDesk } from '../state/use-desk.ts';
import { useKeepReading } from './use-keep-reading.ts';

/** What can be done to a checklist item; each answers whether it was stored. */
export function useItemActions(jobId: string) {
  const { ask, say } = useActions();
  const { store } = useDesk();
  const addReading = useKeepReading(jobId);

  const done = async (item: ChecklistItem, note = ''): Promise<boolean> => {
    const answer = await ask('doItem', { jobId, itemId: item.id, note });
    if (answer !== null) say(`Done: ${item.title}.`);
    return answer !== null;
  };

  /** Takes what the meter shows; puts the meter in the item's function first when it is not. */
  const takeFromMeter = async (item: ChecklistItem): Promise<boolean> => {
    const meter = store.get().bench?.meter;
    if (meter === undefined || meter.link !== 'live' || item.quantity === null) return false;
    if (meter.quantity !== item.quantity) {
      await ask('meterFunction', { quantity: item.quantity });
      return false;
    }
    const { value, overload, decimals } = meter;
    if (value === null && !overload) return false;
    return addReading(
      item,
      {
        quantity: item.quantity,
        value: overload ? null : value,
        overload,
        decimals: shownDecimals(item.quantity, decimals, value),
        place: item.place,
        expectedLow: null,
        expectedHigh: null,
      },
      'meter',
    );
  };

  return {
    done,
    addReading,
    takeFromMeter,
    skip: async (item: ChecklistItem, reason: string): Promise<boolean> => {
      const answer = await ask('skipItem', { jobId, itemId: item.id, reason });
      if (answer !== null) say(`Skipped: ${item.title}.`);
      return answer !== null;
    },
    reopen: (item: ChecklistItem) => ask('reopenItem', { jobId, itemId: item.id }),
  };
}
