import { createPyramid, type Pyramid, pyramidFromBytes } from '../../core/trace/pyramid.ts';
import { chunksOfTrack } from './chunk-store.ts';
import type { Db } from './ledger-context.ts';

/** Keeps a track's pyramid beside its chunks. */
export async function writePyramid(db: Db, trackId: string, pyramid: Pyramid): Promise<void> {
  const row = { samples: pyramid.samples, nodes: pyramid.toBytes() };
  await db
    .insertInto('pyramids')
    .values({ track_id: trackId, ...row })
    .onConflict((c) => c.column('track_id').doUpdateSet(row))
    .execute();
}

/** Builds a track's pyramid from its chunks. Throws `bad-chunk` when one is damaged. */
export async function buildPyramid(db: Db, trackId: string): Promise<Pyramid> {
  const pyramid = createPyramid();
  for await (const columns of chunksOfTrack(db, trackId, 0, Number.MAX_SAFE_INTEGER)) {
    pyramid.append(columns);
  }
  return pyramid;
}

/** The pyramid kept for a track; one that is missing or damaged is built again from the chunks. */
export async function readPyramid(db: Db, trackId: string): Promise<Pyramid> {
  const row = await db
    .selectFrom('pyramids')
    .select('nodes')
    .where('track_id', '=', trackId)
    .executeTakeFirst();
  if (row !== undefined) {
    try {
      // Plain bytes: a Buffer's slice would share memory.
      return pyramidFromBytes(new Uint8Array(row.nodes));
    } catch {
      // It only repeats what the chunks hold: build it again below.
    }
  }
  const pyramid = await buildPyramid(db, trackId);
  await writePyramid(db, trackId, pyramid);
  return pyramid;
}
