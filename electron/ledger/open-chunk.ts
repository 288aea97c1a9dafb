import type { TraceColumns } from '../../core/trace/sample.ts';

/** Samples in a full chunk: at 20 Hz some fifty seconds, a few kilobytes once packed. */
export const CHUNK_SAMPLES = 1024;

/** The chunk that a track is still filling. Its row is written again until it is full. */
export class OpenChunk {
  readonly #ticks = new Float64Array(CHUNK_SAMPLES);
  readonly #volts = new Float64Array(CHUNK_SAMPLES);
  readonly #amps = new Float64Array(CHUNK_SAMPLES);
  readonly #regulation = new Uint8Array(CHUNK_SAMPLES);
  #size = 0;

  get size(): number {
    return this.#size;
  }

  get isFull(): boolean {
    return this.#size === CHUNK_SAMPLES;
  }

  /** Tick of its newest sample; -1 while it is empty. */
  get lastTick(): number {
    return this.#size === 0 ? -1 : this.#ticks[this.#size - 1]!;
  }

  /** Takes samples from index `from` on, as many as fit; returns how many it took. */
  take(columns: TraceColumns, from: number): number {
    const count = Math.min(columns.ticks.length - from, CHUNK_SAMPLES - this.#size);
    const to = from + count;
    this.#ticks.set(columns.ticks.subarray(from, to), this.#size);
    this.#volts.set(columns.volts.subarray(from, to), this.#size);
    this.#amps.set(columns.amps.subarray(from, to), this.#size);
    this.#regulation.set(columns.regulation.subarray(from, to), this.#size);
    this.#size += count;
    return count;
  }

  /** What it holds, as copies. */
  columns(): TraceColumns {
    return {
      ticks: this.#ticks.slice(0, this.#size),
      volts: this.#volts.slice(0, this.#size),
      amps: this.#amps.slice(0, this.#size),
      regulation: this.#regulation.slice(0, this.#size),
    };
  }
}
