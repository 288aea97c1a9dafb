import CRC32 from 'crc-32';
import { WakelineError } from '../errors.ts';

const HEAD_BYTES = 2;
const CRC_BYTES = 4;

/** Wraps `body`: a byte that says what it is, its format version, the body, CRC-32 (IEEE) of it all. */
export function seal(magic: number, version: number, body: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(HEAD_BYTES + body.length + CRC_BYTES);
  bytes[0] = magic;
  bytes[1] = version;
  bytes.set(body, HEAD_BYTES);
  const at = HEAD_BYTES + body.length;
  new DataView(bytes.buffer).setInt32(at, CRC32.buf(bytes.subarray(0, at)));
  return bytes;
}

/** The body of sealed bytes. Throws `bad-chunk` when kind, version or CRC are not as they must be. */
export function openSealed(
  bytes: Uint8Array,
  magic: number,
  version: number,
  where: string,
): Uint8Array {
  const at = bytes.length - CRC_BYTES;
  if (at < HEAD_BYTES) throw damaged(where, `it has only ${bytes.length} bytes`);
  if (bytes[0] !== magic) throw damaged(where, `it begins with byte ${bytes[0]}, not ${magic}`);
  const crc = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getInt32(at);
  if (crc !== CRC32.buf(bytes.subarray(0, at))) throw damaged(where, 'its checksum does not match');
  if (bytes[1] !== version) {
    throw damaged(where, `its format is ${bytes[1]} and this version reads ${version}`);
  }
  return bytes.subarray(HEAD_BYTES, at);
}

/** The error for stored bytes that cannot be read. */
export function damaged(where: string, why: string): WakelineError {
  return new WakelineError({
    code: 'bad-chunk',
    what: `Stored samples cannot be read: ${why}`,
    where,
    todo: 'The rest of the run is not touched. Take this stretch from a backup of the ledger.',
  });
}
