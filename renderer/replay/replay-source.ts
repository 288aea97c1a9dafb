import type { TraceWindow } from '../../core/trace/sample.ts';
import { createRunTrace, type RunTrace } from '../live/run-trace.ts';
import type { TraceSource } from '../live/trace-source.ts';
import type { Actions } from '../state/actions.ts';

/** A kept run, read from the ledger, and a head that moves along it. */
export interface ReplaySource extends TraceSource {
  readonly setHead: (tick: number) => void;
  readonly whole: RunTrace;
  /** Reads the run piece by piece until it is whole or `isWanted` says no. */
  readonly load: (isWanted: () => boolean) => Promise<void>;
}

/** Samples asked for at once: about 3 MB. */
const PIECE = 100_000;

export function createReplaySource(
  runId: string,
  lastTick: number,
  ask: Actions['ask'],
): ReplaySource {
  const whole = createRunTrace(runId);
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
    endTick: () => head,
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
      let fromTick = 0;
      while (fromTick <= lastTick) {
        const piece = await ask('readSamples', {
          id: runId,
          fromTick,
          toTick: lastTick + 1,
          limit: PIECE,
        });
        if (piece === null || piece.ticks.length === 0 || !isWanted()) return;
        whole.append(piece);
        fromTick = Math.floor(piece.ticks[piece.ticks.length - 1]!) + 1;
        if (piece.ticks.length < PIECE) return;
      }
    },
  };
}
