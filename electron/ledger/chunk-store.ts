import type { Insertable } from 'kysely';
import { WakelineError } from '../../core/errors.ts';
import { CHUNK_VERSION, decodeChunk, encodeChunk } from '../../core/trace/chunk-codec.ts';
import { decimalDigits } from '../../core/trace/decimal-scale.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import type { Db } from './ledger-context.ts';
import type { ChunkRow } from './tables.ts';

/** A chunk packed as the row it is stored as. */
export function chunkRow(o: {
  trackId: string;
  seq: number;
  columns: TraceColumns;
  waitedMs: number;
}): Insertable<ChunkRow> {
  const { ticks } = o.columns;
  return {
    track_id: o.trackId,
    seq: o.seq,
    from_tick: ticks[0]!,
    to_tick: ticks[ticks.length - 1]!,
    samples: ticks.length,
    waited_ms: Math.ceil(o.waitedMs),
    codec: CHUNK_VERSION,
    volts_exponent: exponentOf(o.columns.volts),
    amps_exponent: exponentOf(o.columns.amps),
    columns: encodeChunk(o.columns),
  };
}

/** Power of ten of a column's whole numbers; null when it is absent or holds no decimals. */
function exponentOf(values: Float64Array): number | null {
  const digits = values.every(Number.isNaN) ? null : decimalDigits(values);
  return digits === null ? null : 0 - digits;
}

/** Writes chunks, each over what was there of it before, and drops those that went into others. */
export async function writeChunks(
  db: Db,
  trackId: string,
  rows: readonly Insertable<ChunkRow>[],
  gone: readonly number[],
): Promise<void> {
  if (gone.length > 0) {
    await db
      .deleteFrom('chunks')
      .where('track_id', '=', trackId)
      .where('seq', 'in', gone)
      .execute();
  }
  for (const row of rows) {
    const { track_id: _, seq: __, ...rest } = row;
    await db
      .insertInto('chunks')
      .values(row)
      .onConflict((c) => c.columns(['track_id', 'seq']).doUpdateSet(rest))
      .execute();
  }
}

/** How many samples of a track are stored, and the tick of the newest; -1 when there is none. */
export async function trackExtent(
  db: Db,
  trackId: string,
): Promise<{ samples: number; lastTick: number; waitedMs: number }> {
  const row = await db
    .selectFrom('chunks')
    .select((eb) => [
      eb.fn.sum<number | null>('samples').as('samples'),
      eb.fn.max('to_tick').as('lastTick'),
      eb.fn.max('waited_ms').as('waitedMs'),
    ])
    .where('track_id', '=', trackId)
    .executeTakeFirstOrThrow();
  return {
    samples: Number(row.samples ?? 0),
    lastTick: row.lastTick ?? -1,
    waitedMs: row.waitedMs ?? 0,
  };
}

/**
 * The stored samples of a track, chunk by chunk, whose chunks touch `[fromTick, toTick)`. Throws
 * `bad-chunk` with its place when one does not hold what was written.
 */
export async function* chunksOfTrack(
  db: Db,
  trackId: string,
  fromTick: number,
  toTick: number,
): AsyncGenerator<TraceColumns> {
  let after = -1;
  for (;;) {
    const rows = await db
      .selectFrom('chunks')
      .select(['seq', 'columns'])
      .where('track_id', '=', trackId)
      .where('seq', '>', after)
      .where('to_tick', '>=', fromTick)
      .where('from_tick', '<', toTick)
      .orderBy('seq')
      .limit(32)
      .execute();
    for (const row of rows) {
      yield unpack(row.columns, trackId, row.seq);
    }
    const last = rows[rows.length - 1];
    if (last === undefined || rows.length < 32) return;
    after = last.seq;
  }
}

/** Chunks of a track by their numbers. Throws `bad-chunk` with its place. */
export async function readChunks(
  db: Db,
  trackId: string,
  seqs: readonly number[],
): Promise<ReadonlyMap<number, TraceColumns>> {
  const found = new Map<number, TraceColumns>();
  for (let i = 0; i < seqs.length; i += 100) {
    const rows = await db
      .selectFrom('chunks')
      .select(['seq', 'columns'])
      .where('track_id', '=', trackId)
      .where('seq', 'in', seqs.slice(i, i + 100))
      .execute();
    for (const row of rows) found.set(row.seq, unpack(row.columns, trackId, row.seq));
  }
  return found;
}

function unpack(bytes: Uint8Array, trackId: string, seq: number): TraceColumns {
  try {
    // A Buffer's slice shares memory where a Uint8Array's copies: core must get the plain kind.
    return decodeChunk(new Uint8Array(bytes));
  } catch (cause) {
    throw new WakelineError(
      {
        code: 'bad-chunk',
        what: 'A stored stretch of this run does not hold what was written',
        where: `track ${trackId}, chunk ${seq + 1}`,
        todo: 'Check the disk and bring back the newest backup of the ledger. The rest of the run is whole.',
      },
      { cause },
    );
  }
}
