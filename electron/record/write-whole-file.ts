import { randomBytes } from 'node:crypto';
import { open, rename, unlink } from 'node:fs/promises';
import path from 'node:path';
import { WakelineError } from '../../core/errors.ts';

/**
 * Writes a file whole or not at all: into a new file beside the target, onto the disk, then
 * renamed over it. What stood there before stays until the moment of the rename. Throws
 * `file-not-written`, and what the maker of the bytes throws.
 */
export async function writeWholeFile(
  target: string,
  bytes: Uint8Array | AsyncIterable<string | Uint8Array>,
): Promise<void> {
  const beside = path.join(
    path.dirname(target),
    `.${path.basename(target).slice(0, 60)}.${randomBytes(6).toString('hex')}.part`,
  );
  try {
    const file = await open(beside, 'wx');
    try {
      if (bytes instanceof Uint8Array) await file.writeFile(bytes);
      else for await (const piece of bytes) await file.appendFile(piece);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, target);
  } catch (cause) {
    await unlink(beside).catch(() => {});
    // What was to be written could not be made: that says more than the file does.
    if (cause instanceof WakelineError) throw cause;
    throw new WakelineError(
      {
        code: 'file-not-written',
        what: `The file could not be written: ${reasonOf(cause)}`,
        where: target,
        todo: `${remedyOf(cause)} Nothing that was there before has changed.`,
      },
      { cause },
    );
  }
}

const REASONS: Readonly<Record<string, readonly [reason: string, remedy: string]>> = {
  ENOENT: ['its folder does not exist', 'Choose a folder that exists and export again.'],
  ENOTDIR: ['its folder is a file', 'Choose a folder and export again.'],
  EISDIR: ['a folder has that name', 'Choose another name and export again.'],
  EACCES: ['this folder may not be written to', 'Choose a folder of your own and export again.'],
  EPERM: [
    'this file may not be replaced',
    'Close it if it is open elsewhere, or choose another name.',
  ],
  EBUSY: ['the file is in use', 'Close it in the other program and export again.'],
  EROFS: ['this disk is read-only', 'Choose another disk and export again.'],
  ENOSPC: ['the disk is full', 'Make room or choose another disk, and export again.'],
  EDQUOT: ['your share of the disk is used up', 'Make room and export again.'],
  ENAMETOOLONG: ['the name is too long', 'Choose a shorter name and export again.'],
};

function codeOf(cause: unknown): string {
  return cause instanceof Error && 'code' in cause ? String(cause.code) : '';
}

function reasonOf(cause: unknown): string {
  return REASONS[codeOf(cause)]?.[0] ?? (cause instanceof Error ? cause.message : String(cause));
}

function remedyOf(cause: unknown): string {
  return REASONS[codeOf(cause)]?.[1] ?? 'Choose another place and export again.';
}
