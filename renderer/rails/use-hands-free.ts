import { useEffect, useRef } from 'react';
import type { ProbeTaken } from '../../core/contract/probing-calls.ts';
import { useHands } from '../probing/use-hands.ts';
import { useActions } from '../state/use-desk.ts';
import { type ProbeAim, quantityOf } from './probe-aim.ts';

/**
 * Takes the reading by itself once a touch at the point aimed at has settled, for hands that hold
 * two probes. `again` = the same point was touched again within a moment. Answers why the last touch
 * was no reading.
 */
export function useHandsFree(
  isOn: boolean,
  aim: ProbeAim,
  onSettled: (taken: ProbeTaken, again: boolean) => void,
): string | null {
  const { ask } = useActions();
  const probe = useHands((state) => state.probe);
  const quantity = quantityOf(aim);
  const takes = probe?.takes ?? 0;
  const seen = useRef(takes);
  const latest = useRef(onSettled);
  latest.current = onSettled;

  useEffect(() => {
    if (!isOn) return;
    void ask('startProbing', { along: 'view', itemIds: null, quantity });
    return () => void ask('stopProbing', {});
  }, [isOn, quantity, ask]);

  useEffect(() => {
    const isNew = takes > seen.current;
    seen.current = takes;
    const taken = probe?.taken[0];
    if (!isNew || !isOn || taken === undefined || probe?.along !== 'view') return;
    latest.current(taken, taken.replaced);
  }, [takes, probe, isOn]);

  return isOn && probe?.along === 'view' ? probe.why : null;
}
