import { createReadStream } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { WakelineError } from '../../core/errors.ts';

const PIECE_BYTES = 1 << 18;

/**
 * Reads a text file in pieces and tells how far it is. UTF-8 unless its first bytes say UTF-16, as
 * spreadsheets write. Throws `bad-trace-file` when it cannot be opened or read.
 */
export async function readTextFile(
  path: string,
  use: (text: string) => void | Promise<void>,
  tell: (readBytes: number, totalBytes: number) => void,
): Promise<void> {
  let handle: FileHandle | null = null;
  try {
    handle = await open(path, 'r');
    const about = await handle.stat();
    if (about.isDirectory()) throw notRead(path, 'it is a folder');
    const head = new Uint8Array(4);
    // A pipe cannot be looked at and then read from its start.
    const seen = about.isFile() ? (await handle.read(head, 0, 4, 0)).bytesRead : 0;
    await handle.close();
    handle = null;
    const decoder = new TextDecoder(encodingOf(head.subarray(0, seen)));
    let readBytes = 0;
    for await (const bytes of createReadStream(path, { highWaterMark: PIECE_BYTES })) {
      readBytes += (bytes as Uint8Array).length;
      await use(decoder.decode(bytes as Uint8Array, { stream: true }));
      tell(readBytes, about.size);
    }
    await use(decoder.decode());
  } catch (thrown) {
    if (thrown instanceof WakelineError) throw thrown;
    throw notRead(path, reasonOf(thrown), thrown);
  } finally {
    await handle?.close();
  }
}

function encodingOf(head: Uint8Array): string {
  const [a = 1, b = 1] = head;
  if ((a === 0xff && b === 0xfe) || (head.length > 1 && b === 0 && a !== 0)) return 'utf-16le';
  if ((a === 0xfe && b === 0xff) || (head.length > 1 && a === 0 && b !== 0)) return 'utf-16be';
  return 'utf-8';
}

function reasonOf(thrown: unknown): string {
  const code = (thrown as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return 'there is no such file';
  if (code === 'EACCES' || code === 'EPERM') return 'this user may not read it';
  return thrown instanceof Error ? thrown.message : String(thrown);
}

function notRead(path: string, why: string, cause?: unknown): WakelineError {
  return new WakelineError(
    {
      code: 'bad-trace-file',
      what: `The file cannot be read: ${why}`,
      where: path,
      todo: 'Check its name and place.',
    },
    { cause },
  );
}
