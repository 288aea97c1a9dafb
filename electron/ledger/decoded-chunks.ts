import type { TraceColumns } from '../../core/trace/sample.ts';
import { readChunks } from './chunk-store.ts';
import type { Db } from './ledger-context.ts';

/** Decoded samples that are kept: a day at 20 Hz, some 50 MB at most, while such a run is looked at. */
const KEPT_SAMPLES = 2_000_000;

interface Place {
  readonly seq: number;
  readonly fromTick: number;
  readonly toTick: number;
}

/**
 * Decoded chunks of runs that have ended: moving and zooming over a run decodes each stretch once.
 * What was looked at longest ago goes first.
 */
export class DecodedChunks {
  readonly #db: Db;
  readonly #places = new Map<string, readonly Place[]>();
  readonly #chunks = new Map<string, TraceColumns>();
  #samples = 0;

  constructor(db: Db) {
    this.#db = db;
  }

  /** Chunks of an ended run's track that touch `[fromTick, toTick)`, in order. Throws `bad-chunk`. */
  async touching(
    trackId: string,
    fromTick: number,
    toTick: number,
  ): Promise<readonly TraceColumns[]> {
    const places = await this.#placesOf(trackId);
    const wanted = places.filter((one) => one.toTick >= fromTick && one.fromTick < toTick);
    const key = (seq: number) => `${trackId} ${seq}`;
    const missing = wanted.map(({ seq }) => seq).filter((seq) => !this.#chunks.has(key(seq)));
    const read = await readChunks(this.#db, trackId, missing);
    return wanted.flatMap(({ seq }) => {
      const chunk = this.#chunks.get(key(seq)) ?? read.get(seq);
      // A loose run may have been trimmed since its places were read.
      if (chunk === undefined) return [];
      this.#keep(key(seq), chunk);
      return [chunk];
    });
  }

  forgetAll(): void {
    this.#places.clear();
    this.#chunks.clear();
    this.#samples = 0;
  }

  #keep(key: string, chunk: TraceColumns): void {
    if (this.#chunks.delete(key)) this.#samples -= chunk.ticks.length;
    this.#chunks.set(key, chunk);
    this.#samples += chunk.ticks.length;
    for (const [oldest, its] of this.#chunks) {
      if (this.#samples <= KEPT_SAMPLES || oldest === key) break;
      this.#chunks.delete(oldest);
      this.#samples -= its.ticks.length;
    }
  }

  async #placesOf(trackId: string): Promise<readonly Place[]> {
    const known = this.#places.get(trackId);
    if (known !== undefined) return known;
    const rows = await this.#db
      .selectFrom('chunks')
      .select(['seq', 'from_tick', 'to_tick'])
      .where('track_id', '=', trackId)
      .orderBy('seq')
      .execute();
    const places = rows.map((row) => ({
      seq: row.seq,
      fromTick: row.from_tick,
      toTick: row.to_tick,
    }));
    this.#places.set(trackId, places);
    return places;
  }
}
