import { WakelineError } from '../errors.ts';
import type { TraceColumns } from './sample.ts';
import { damaged, openSealed, seal } from './sealed-bytes.ts';

/** Version of the chunk format; also the first thing a reader checks. */
export const CHUNK_VERSION = 1;
/** Most samples in one chunk: what a hostile length can make the reader allocate is bounded by it. */
export const MAX_CHUNK_SAMPLES = 1 << 20;
const MAGIC = 0x57;
const WHERE = 'a stored chunk';

/**
 * Packs a stretch of samples without loss: every double comes back bit for bit (all NaNs as the
 * one NaN). Throws `bad-input` when the columns differ in length or exceed `MAX_CHUNK_SAMPLES`.
 */
export function encodeChunk(columns: TraceColumns): Uint8Array {
  const n = columns.ticks.length;
  const { volts, amps, regulation } = columns;
  if (volts.length !== n || amps.length !== n || regulation.length !== n || n > MAX_CHUNK_SAMPLES) {
    throw new WakelineError({
      code: 'bad-input',
      what: `A chunk needs columns of one length up to ${MAX_CHUNK_SAMPLES} samples, not ${n}, ${volts.length}, ${amps.length} and ${regulation.length}`,
      where: 'encodeChunk',
      todo: 'Split the stretch into smaller chunks.',
    });
  }
  const body = new Uint8Array(n * 25);
  const all = new Float64Array(n * 3);
  all.set(columns.ticks, 0);
  all.set(volts, n);
  all.set(amps, 2 * n);
  body.set(new Uint8Array(all.buffer), 0);
  body.set(regulation, n * 24);
  return seal(MAGIC, CHUNK_VERSION, body);
}

/** Reads what `encodeChunk` wrote. Throws `bad-chunk` for anything else, without hanging. */
export function decodeChunk(bytes: Uint8Array): TraceColumns {
  const body = openSealed(bytes, MAGIC, CHUNK_VERSION, WHERE);
  if (body.length % 25 !== 0) throw damaged(WHERE, 'its length is odd');
  const n = body.length / 25;
  const all = new Float64Array(body.slice(0, n * 24).buffer);
  return {
    ticks: all.slice(0, n),
    volts: all.slice(n, 2 * n),
    amps: all.slice(2 * n),
    regulation: body.slice(n * 24),
  };
}
