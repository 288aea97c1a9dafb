import type { Bridge } from '../../core/contract/contract.ts';
import type { TraceWindow } from '../../core/trace/sample.ts';
import { readSamples } from '../live/read-samples.ts';
import { createRunTrace, type RunTrace } from '../live/run-trace.ts';
import type { TraceSource } from '../live/trace-source.ts';
import { decimalsOf } from './decimals-of.ts';

/** A kept run, read from the ledger, and a head that moves along it. */
export interface ReplaySource extends TraceSource {
  readonly setHead: (tick: number) => void;
  readonly whole: RunTrace;
  /** Digits that the supply gave, as far as the run is read. */
  readonly decimals: () => { readonly volts: number; readonly amps: number };
  /** Reads the run piece by piece until it is whole or `isWanted` says no. */
  readonly load: (isWanted: () => boolean) => Promise<void>;
}

export function createReplaySource(
  runId: string,
  lastTick: number,
  bridge: Bridge,
  samples?: number,
): ReplaySource {
  const whole = createRunTrace(runId, samples);
  const listeners = new Set<() => void>();
  let head = 0;
  let version = 0;
  const tell = (): void => {
    version += 1;
    for (const listener of listeners) listener();
  };
  whole.subscribe(tell);

  return {
    runId,
    whole,
    decimals: () => {
      const { volts, amps } = whole.all();
      return { volts: decimalsOf(volts), amps: decimalsOf(amps) };
    },
    endTick: () => head,
    lengthTick: () => lastTick,
    version: () => version,
    setHead: (tick) => {
      head = tick;
      tell();
    },
    window: (fromTick, toTick, columns): TraceWindow => {
      const end = Math.max(fromTick + 1, Math.min(toTick, head + 1));
      const share = (end - fromTick) / (toTick - fromTick);
      return whole.window(fromTick, end, Math.max(1, Math.round(columns * share)));
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    load: async (isWanted) => {
      await readSamples(bridge, { runId, fromTick: 0, toTick: lastTick + 1 }, (piece) => {
        if (isWanted()) whole.append(piece);
        return isWanted();
      });
    },
  };
}
