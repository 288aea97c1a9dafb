import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, open } from 'node:fs/promises';
import path from 'node:path';

/** A file's size and the SHA-256 of its bytes, lower-case hex. */
export interface HashedFile {
  readonly bytes: number;
  readonly sha256: string;
}

/** Text gathered before it goes to the disk. */
const PIECE = 1 << 18;

/** Writes text as it comes, in one memory, onto the disk; answers its size and hash. */
export async function writeHashed(
  file: string,
  texts: Iterable<string> | AsyncIterable<string>,
): Promise<HashedFile> {
  await mkdir(path.dirname(file), { recursive: true });
  const hash = createHash('sha256');
  const handle = await open(file, 'wx');
  let bytes = 0;
  const put = async (text: string): Promise<void> => {
    const piece = Buffer.from(text, 'utf8');
    hash.update(piece);
    bytes += piece.byteLength;
    // writeFile retries short writes; a full disk throws.
    await handle.writeFile(piece);
  };
  try {
    let waiting = '';
    for await (const text of texts) {
      waiting += text;
      if (waiting.length < PIECE) continue;
      await put(waiting);
      waiting = '';
    }
    if (waiting !== '') await put(waiting);
    await handle.sync();
  } finally {
    await handle.close();
  }
  return { bytes, sha256: hash.digest('hex') };
}

/** Reads a file back from the disk; `tell` hears of each piece's size. */
export async function hashFile(
  file: string,
  tell: (bytes: number) => void = () => {},
): Promise<HashedFile> {
  const hash = createHash('sha256');
  let bytes = 0;
  for await (const piece of createReadStream(file, { highWaterMark: 1 << 20 })) {
    const part = piece as Buffer;
    hash.update(part);
    bytes += part.byteLength;
    tell(part.byteLength);
  }
  return { bytes, sha256: hash.digest('hex') };
}
