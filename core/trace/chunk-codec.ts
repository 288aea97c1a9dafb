import { WakelineError } from '../errors.ts';
import { type BitCoder, BitDecoder, BitEncoder } from './bit-coder.ts';
import { codeFlat } from './bit-model.ts';
import { decodeColumn, encodeColumn } from './column-codec.ts';
import { CountModel } from './integer-model.ts';
import type { TraceColumns } from './sample.ts';
import { damaged, openSealed, seal } from './sealed-bytes.ts';

/** Version of the chunk format; every chunk begins with it, after one byte that says "chunk". */
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
  const { ticks, volts, amps, regulation } = columns;
  const length = ticks.length;
  if (
    [volts, amps, regulation].some((column) => column.length !== length) ||
    length > MAX_CHUNK_SAMPLES
  ) {
    const lengths = `${length}, ${volts.length}, ${amps.length} and ${regulation.length}`;
    throw new WakelineError({
      code: 'bad-input',
      what: `A chunk needs columns of one length up to ${MAX_CHUNK_SAMPLES} samples, not ${lengths}`,
      where: 'encodeChunk',
      todo: 'Split the stretch into smaller chunks.',
    });
  }
  const coder = new BitEncoder();
  new CountModel().code(coder, length);
  encodeColumn(coder, ticks);
  encodeColumn(coder, volts);
  encodeColumn(coder, amps);
  codeRuns(coder, regulation);
  return seal(MAGIC, CHUNK_VERSION, coder.finish());
}

/**
 * Reads what `encodeChunk` wrote. Throws `bad-chunk` for anything else: a cut, a flipped bit or a
 * hostile length never hangs it and never makes it allocate more than `MAX_CHUNK_SAMPLES` need.
 */
export function decodeChunk(bytes: Uint8Array): TraceColumns {
  const coder = new BitDecoder(openSealed(bytes, MAGIC, CHUNK_VERSION, WHERE));
  const length = new CountModel().code(coder, 0);
  if (length > MAX_CHUNK_SAMPLES) throw damaged(WHERE, `it claims ${length} samples`);
  const ticks = decodeColumn(coder, length);
  const volts = decodeColumn(coder, length);
  const amps = decodeColumn(coder, length);
  const regulation = new Uint8Array(length);
  codeRuns(coder, regulation);
  if (coder.overrun > 4) throw damaged(WHERE, 'it ends early');
  return { ticks, volts, amps, regulation };
}

/** Codes a column of small codes as runs, filling it when it is read. */
function codeRuns(coder: BitCoder, codes: Uint8Array): void {
  const counts = new CountModel();
  for (let from = 0; from < codes.length; ) {
    let to = from + 1;
    while (to < codes.length && codes[to] === codes[from]) to += 1;
    const code = codeFlat(coder, codes[from]!, 8);
    const length = counts.code(coder, to - from - 1) + 1;
    if (length > codes.length - from) throw damaged(WHERE, `a run of ${length} codes`);
    codes.fill(code, from, from + length);
    from += length;
  }
}
