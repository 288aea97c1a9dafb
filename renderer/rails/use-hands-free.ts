import { useEffect, useRef } from 'react';
import { type Showing, settledReading } from '../../core/rails/settled-reading.ts';
import { useDesk } from '../state/use-desk.ts';
import { type ProbeAim, quantityOf } from './probe-aim.ts';

const LOOK_EVERY_MS = 200;
const REMEMBER_MS = 4000;

/**
 * Takes the reading by itself once the meter stands still at the point aimed at, for hands that hold
 * two probes. After a taking it waits until the probe has moved.
 */
export function useHandsFree(isOn: boolean, aim: ProbeAim | null, onSettled: () => void): void {
  const { store } = useDesk();
  const latest = useRef({ aim, onSettled });
  latest.current = { aim, onSettled };
  useEffect(() => {
    if (!isOn) return;
    let showings: Showing[] = [];
    let mustMove = true;
    const look = (): void => {
      const meter = store.get().bench?.meter;
      const quantity = latest.current.aim === null ? null : quantityOf(latest.current.aim);
      const isRead = meter?.link === 'live' && meter.quantity === quantity;
      if (meter === undefined || quantity === null || !isRead) {
        showings = [];
        return;
      }
      const atMs = performance.now();
      const { value, overload } = meter;
      showings = [
        ...showings.filter((one) => one.atMs > atMs - REMEMBER_MS),
        { value, overload, atMs },
      ];
      const settled = settledReading(quantity, showings);
      if (settled === null) mustMove = false;
      else if (!mustMove) {
        mustMove = true;
        latest.current.onSettled();
      }
    };
    const timer = setInterval(look, LOOK_EVERY_MS);
    return () => clearInterval(timer);
  }, [isOn, store]);
}
