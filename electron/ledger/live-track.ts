import type { Insertable } from 'kysely';
import { WakelineError } from '../../core/errors.ts';
import { createPyramid, type Pyramid } from '../../core/trace/pyramid.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { chunkRow } from './chunk-store.ts';
import { joinColumns } from './join-columns.ts';
import { OpenChunk } from './open-chunk.ts';
import type { ChunkRow, TrackRow } from './tables.ts';

interface Held {
  readonly seq: number;
  readonly chunk: OpenChunk;
  /** Samples of it that are on disk. */
  saved: number;
  waitedMs: number;
}

/** Chunks that become one row once they are full: some seven minutes at 20 Hz. */
const CHUNKS_A_GROUP = 8;

export interface Unsaved {
  readonly rows: readonly Insertable<ChunkRow>[];
  /** Numbers of stored chunks that went into one of `rows`. */
  readonly gone: readonly number[];
  readonly saved: () => void;
}

function groupsOf(held: readonly Held[]): readonly (readonly Held[])[] {
  const groups = new Map<number, Held[]>();
  for (const one of held) {
    const number = Math.floor(one.seq / CHUNKS_A_GROUP);
    groups.set(number, [...(groups.get(number) ?? []), one]);
  }
  return [...groups.values()];
}

function isComplete(group: readonly Held[]): boolean {
  const last = group[group.length - 1]!;
  return last.chunk.isFull && last.seq % CHUNKS_A_GROUP === CHUNKS_A_GROUP - 1;
}

/**
 * One instrument's samples in a run that goes on: what is not on disk yet stays here until a
 * commit took it, so that a full disk loses nothing while the app lives.
 */
export class LiveTrack {
  readonly row: TrackRow;
  /** False until the track's own row is on disk. */
  isStored = false;
  readonly pyramid: Pyramid = createPyramid();
  #held: Held[] = [];
  #nextSeq = 0;
  /** Clock time of the oldest sample that is not on disk; null = all are. */
  #waitingSince: number | null = null;

  constructor(row: TrackRow) {
    this.row = row;
  }

  get samples(): number {
    return this.pyramid.samples;
  }

  get lastTick(): number {
    return this.pyramid.lastTick;
  }

  get isDirty(): boolean {
    return this.#waitingSince !== null;
  }

  /** Takes samples. Throws `bad-input` for columns of unequal length and times going backwards. */
  append(columns: TraceColumns, nowMs: number): void {
    this.#check(columns);
    const count = columns.ticks.length;
    if (count === 0) return;
    for (let from = 0; from < count; ) {
      let newest = this.#held[this.#held.length - 1];
      if (newest === undefined || newest.chunk.isFull) {
        newest = { seq: this.#nextSeq, chunk: new OpenChunk(), saved: 0, waitedMs: 0 };
        this.#nextSeq += 1;
        this.#held.push(newest);
      }
      from += newest.chunk.take(columns, from);
    }
    this.pyramid.append(columns);
    this.#waitingSince ??= nowMs;
  }

  /**
   * What a commit must write now, and what to call once it did; samples that arrive in between wait
   * for the next one. Full chunks are written again as one row a group, and with `isLast` the rest
   * of the track too: few large rows take less room than many small ones.
   */
  unsaved(nowMs: number, isLast = false): Unsaved {
    const since = this.#waitingSince;
    const waited = since === null ? 0 : nowMs - since;
    const due = this.#held
      .filter((h) => h.chunk.size > h.saved)
      .map((held) => ({ held, size: held.chunk.size }));
    for (const { held } of due) held.waitedMs = Math.max(held.waitedMs, waited);
    const whole = groupsOf(this.#held).filter((group) => isLast || isComplete(group));
    const merged = new Set(whole.flat());
    const rows = [
      ...whole.map((group) => this.#rowOf(group)),
      ...due.filter(({ held }) => !merged.has(held)).map(({ held }) => this.#rowOf([held])),
    ];
    const gone = whole.flatMap((group) => group.slice(1).map((held) => held.seq));
    const saved = () => {
      this.isStored = true;
      for (const { held, size } of due) held.saved = size;
      this.#held = this.#held.filter((held) => !merged.has(held));
      // Samples that came while the commit ran: counted from its beginning, which is at most late.
      this.#waitingSince = this.#held.some((h) => h.chunk.size > h.saved) ? nowMs : null;
    };
    return { rows, gone, saved };
  }

  /** Forgets full chunks that are on disk and end before `tick`: the ring let them go. */
  dropBefore(tick: number): void {
    this.#held = this.#held.filter(
      ({ chunk, saved }) => !(chunk.isFull && saved === chunk.size && chunk.lastTick < tick),
    );
  }

  #rowOf(group: readonly Held[]): Insertable<ChunkRow> {
    return chunkRow({
      trackId: this.row.id,
      seq: group[0]!.seq,
      columns: joinColumns(group.map((held) => held.chunk.columns())),
      waitedMs: Math.max(...group.map((held) => held.waitedMs)),
    });
  }

  #check(columns: TraceColumns): void {
    const { ticks, volts, amps, regulation } = columns;
    const n = ticks.length;
    if (volts.length !== n || amps.length !== n || regulation.length !== n) {
      throw badSamples('columns of unequal length', this.row);
    }
    let before = this.lastTick;
    for (let i = 0; i < n; i += 1) {
      const tick = ticks[i]!;
      if (!Number.isSafeInteger(tick) || tick < 0) throw badSamples(`the time ${tick}`, this.row);
      if (tick < before) {
        throw badSamples(`a time that goes back from ${before} to ${tick}`, this.row);
      }
      before = tick;
    }
  }
}

function badSamples(what: string, row: TrackRow): WakelineError {
  return new WakelineError({
    code: 'bad-input',
    what: `The samples to record have ${what}`,
    where: `${row.role} track of run ${row.run_id}`,
    todo: 'None of them was recorded. Hand in whole ticks of 0.1 ms that never go back.',
  });
}
