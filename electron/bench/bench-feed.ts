import type { LiveBatch } from '../../core/contract/bench-calls.ts';
import type { Sample } from '../../core/trace/sample.ts';
import { columnsOf } from './bench-columns.ts';

/** Batches that may be on their way before the window has drawn one. */
const UNDRAWN_BATCHES = 4;
/** Most samples a batch carries; a window that is behind gets every n-th, extremes kept. */
const BATCH_SAMPLES = 2000;

/** The live feed to the window: batches with sequence numbers, held back while it is behind. */
export interface LiveFeed {
  /** Starts a run's feed: the window throws away what it drew. */
  begin(runId: string, samples: readonly Sample[]): void;
  push(sample: Sample): void;
  /** Sends what has gathered unless the window is behind. */
  flush(): void;
  acknowledge(sequence: number): void;
  /** The window was loaded anew: nothing is on its way any more. */
  windowOpened(): void;
}

/** Makes a live feed that hands batches to `send`. */
export function createLiveFeed(send: (batch: LiveBatch) => void): LiveFeed {
  let runId = '';
  let fresh = false;
  let waiting: Sample[] = [];
  let sent = 0;
  let drawn = 0;
  return {
    begin(id, samples) {
      runId = id;
      fresh = true;
      waiting = [...samples];
    },
    push(sample) {
      waiting.push(sample);
      if (waiting.length > BATCH_SAMPLES * 2) waiting = thin(waiting);
    },
    flush() {
      if (runId === '' || waiting.length === 0 || sent - drawn >= UNDRAWN_BATCHES) return;
      sent += 1;
      send({ sequence: sent, runId, fresh, ...columnsOf(waiting) });
      fresh = false;
      waiting = [];
    },
    acknowledge(sequence) {
      drawn = Math.max(drawn, Math.min(sequence, sent));
    },
    windowOpened() {
      drawn = sent;
    },
  };
}

/** Halves samples by pairs of pairs, keeping of each four the lowest and highest draw. */
function thin(samples: readonly Sample[]): Sample[] {
  const kept: Sample[] = [];
  for (let at = 0; at < samples.length; at += 4) {
    const four = samples.slice(at, at + 4).filter((sample) => sample.amps !== null);
    if (four.length === 0) continue;
    const low = four.reduce((a, b) => ((b.amps ?? 0) < (a.amps ?? 0) ? b : a));
    const high = four.reduce((a, b) => ((b.amps ?? 0) > (a.amps ?? 0) ? b : a));
    kept.push(...(low === high ? [low] : low.tick < high.tick ? [low, high] : [high, low]));
  }
  return kept;
}
