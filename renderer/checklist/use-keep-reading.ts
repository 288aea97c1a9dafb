import type { ChecklistItem, Quantity } from '../../core/job/job.ts';
import { useActions, useDesk } from '../state/use-desk.ts';

export interface TypedReading {
  readonly quantity: Quantity;
  readonly value: number | null;
  readonly overload: boolean;
  readonly decimals: number | null;
  readonly place: string;
  readonly expectedLow: number | null;
  readonly expectedHigh: number | null;
}

/**
 * Keeps a reading, on a step or free of one, with the run that is being recorded. Without a job it
 * stays loose. Answers whether it was stored; the ledger settles the step.
 */
export function useKeepReading(jobId: string | null) {
  const { ask, say } = useActions();
  const { store } = useDesk();
  return async (
    item: ChecklistItem | null,
    reading: TypedReading,
    source: 'meter' | 'typed',
  ): Promise<boolean> => {
    const run = store.get().bench?.run ?? null;
    const answer = await ask('addReading', {
      jobId,
      itemId: item?.id ?? null,
      runId: run !== null && run.endedAt === null ? run.id : null,
      source,
      ...reading,
    });
    if (answer !== null) say(item === null ? 'Reading kept.' : `Reading kept: ${item.title}.`);
    return answer !== null;
  };
}
