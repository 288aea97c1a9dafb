import type { Pyramid } from '../../core/trace/pyramid.ts';
import type { TraceColumns, TraceWindow } from '../../core/trace/sample.ts';
import { lowerBound, windowOfSamples } from '../../core/trace/window-of-samples.ts';
import { chunksOfTrack } from './chunk-store.ts';
import { DecodedChunks } from './decoded-chunks.ts';
import { joinColumns } from './join-columns.ts';
import type { Db } from './ledger-context.ts';
import type { LiveRuns } from './live-runs.ts';
import { readPyramid } from './pyramid-store.ts';
import { supplyTrack } from './track-store.ts';

/** Pyramids of runs that were looked at last; one of eight hours at 20 Hz is about half a megabyte. */
const KEPT_PYRAMIDS = 8;

/** Reads stretches of a run's supply track, of runs that ended and of those that go on. */
export class RunReader {
  readonly #db: Db;
  readonly #live: LiveRuns;
  readonly #pyramids = new Map<string, Pyramid>();
  readonly #decoded: DecodedChunks;
  readonly #tracks = new Map<string, string>();

  constructor(db: Db, live: LiveRuns) {
    this.#db = db;
    this.#live = live;
    this.#decoded = new DecodedChunks(db);
  }

  /** `[fromTick, toTick)` reduced to at most `columns` entries. */
  async window(
    runId: string,
    fromTick: number,
    toTick: number,
    columns: number,
  ): Promise<TraceWindow> {
    const running = this.#live.find(runId);
    const from = Math.max(fromTick, running?.trimmedTick ?? 0);
    const pyramid = running?.supply?.pyramid ?? (await this.#pyramidOf(runId));
    if (pyramid === null) return windowOfSamples(joinColumns([]), from, toTick, columns);
    if (!pyramid.isTooCoarse(from, toTick, columns)) return pyramid.window(from, toTick, columns);
    const samples =
      running === undefined
        ? await this.#endedSamples(runId, from, toTick)
        : await this.samples(runId, from, toTick, Number.POSITIVE_INFINITY);
    return windowOfSamples(samples, from, toTick, columns);
  }

  /** Every sample of `[fromTick, toTick)`, at most the first `limit`. */
  async samples(
    runId: string,
    fromTick: number,
    toTick: number,
    limit: number,
  ): Promise<TraceColumns> {
    if (this.#live.find(runId) !== undefined) await this.#live.flush();
    const track = await supplyTrack(this.#db, runId);
    if (track === undefined) return joinColumns([]);
    const parts: TraceColumns[] = [];
    let wanted = limit;
    for await (const chunk of chunksOfTrack(this.#db, track.id, fromTick, toTick)) {
      const first = lowerBound(chunk.ticks, fromTick);
      const last = Math.min(lowerBound(chunk.ticks, toTick), first + wanted);
      if (last > first) parts.push(cut(chunk, first, last));
      wanted -= last - first;
      if (wanted <= 0) break;
    }
    return joinColumns(parts);
  }

  /** Forgets what it kept: runs were deleted or trimmed. */
  forgetAll(): void {
    this.#pyramids.clear();
    this.#decoded.forgetAll();
    this.#tracks.clear();
  }

  /** A stretch of a run that has ended, from chunks that are decoded once. */
  async #endedSamples(runId: string, fromTick: number, toTick: number): Promise<TraceColumns> {
    const trackId = await this.#trackIdOf(runId);
    if (trackId === null) return joinColumns([]);
    const chunks = await this.#decoded.touching(trackId, fromTick, toTick);
    return joinColumns(
      chunks.map((chunk) =>
        cut(chunk, lowerBound(chunk.ticks, fromTick), lowerBound(chunk.ticks, toTick)),
      ),
    );
  }

  async #trackIdOf(runId: string): Promise<string | null> {
    const known = this.#tracks.get(runId);
    if (known !== undefined) return known;
    const track = await supplyTrack(this.#db, runId);
    if (track === undefined) return null;
    this.#tracks.set(runId, track.id);
    return track.id;
  }

  async #pyramidOf(runId: string): Promise<Pyramid | null> {
    const trackId = await this.#trackIdOf(runId);
    if (trackId === null) return null;
    const kept = this.#pyramids.get(trackId) ?? (await readPyramid(this.#db, trackId));
    this.#pyramids.delete(trackId);
    this.#pyramids.set(trackId, kept);
    if (this.#pyramids.size > KEPT_PYRAMIDS) {
      const oldest = this.#pyramids.keys().next();
      if (!oldest.done) this.#pyramids.delete(oldest.value);
    }
    return kept;
  }
}

function cut(columns: TraceColumns, from: number, to: number): TraceColumns {
  return {
    ticks: columns.ticks.subarray(from, to),
    volts: columns.volts.subarray(from, to),
    amps: columns.amps.subarray(from, to),
    regulation: columns.regulation.subarray(from, to),
  };
}
