import { useEffect, useRef, useState } from 'react';
import { useActions, useDesk, useDeskState } from '../state/use-desk.ts';

interface Value {
  readonly volts: number;
  readonly decimals: number | null;
}

/** A reading that began before the current had stood still for this long was taken over a change. */
const STILL_MS = 1000;
/** Digits that mean anything at a bench: a microvolt. */
const MOST_DECIMALS = 6;

/** Takes readings at a hunt's points with the current that flows, never over a change of it. */
export function usePointReading(): {
  /** Amps that flow now; 0 = the output is off; null = the supply does not tell. */
  readonly amps: number | null;
  /** Why the last one was not kept; null when it was. */
  readonly why: string | null;
  readonly keep: (pointId: string, value: Value, source: 'meter' | 'typed') => Promise<boolean>;
  readonly take: (pointId: string) => Promise<boolean>;
} {
  const { store } = useDesk();
  const { ask, say } = useActions();
  const [why, setWhy] = useState<string | null>(null);
  const isOn = useDeskState((state) => state.bench?.supply.outputOn ?? null);
  const limitA = useDeskState((state) => state.bench?.supply.limitA ?? null);
  const setV = useDeskState((state) => state.bench?.supply.setV ?? null);
  const changedMs = useRef(Number.NEGATIVE_INFINITY);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of any of these moves the current
  useEffect(() => {
    changedMs.current = performance.now();
  }, [isOn, limitA, setV]);
  const amps = useDeskState(({ bench }) =>
    bench?.supply.link !== 'live' ? null : bench.supply.outputOn === true ? bench.supply.amps : 0,
  );

  const keep = async (
    pointId: string,
    { volts, decimals }: Value,
    source: 'meter' | 'typed',
  ): Promise<boolean> => {
    const supply = store.get().bench?.supply;
    const flowing = supply?.outputOn === true ? supply.amps : 0;
    if (supply === undefined || supply.link !== 'live' || flowing === null) {
      setWhy('The supply does not tell what flows, and without it the reading means nothing.');
      return false;
    }
    if (source === 'meter' && performance.now() - changedMs.current < STILL_MS) {
      setWhy('The current changed while it was read: it was not kept. Hold, wait a second, again.');
      return false;
    }
    const kept = await ask('addHuntReading', {
      pointId,
      volts,
      decimals: decimals === null ? null : Math.min(decimals, MOST_DECIMALS),
      amps: Math.max(0, flowing),
      source,
    });
    setWhy(null);
    if (kept !== null) {
      const point = kept.hunt.points.find(({ id }) => id === pointId);
      say(`Kept at ${point?.name ?? 'the point'}.`);
    }
    return kept !== null;
  };

  const take = async (pointId: string): Promise<boolean> => {
    const meter = store.get().bench?.meter;
    if (meter === undefined || meter.link !== 'live') {
      setWhy('No meter is connected: type what yours shows (T).');
      return false;
    }
    if (meter.quantity !== 'volts') {
      await ask('meterFunction', { quantity: 'volts' });
      setWhy('The meter was put in volts: take it again once it shows the point.');
      return false;
    }
    if (meter.overload || meter.value === null) {
      setWhy('The meter shows no value to take.');
      return false;
    }
    return keep(pointId, { volts: meter.value, decimals: meter.decimals }, 'meter');
  };
  return { amps, why, keep, take };
}
