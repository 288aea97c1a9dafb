import { WakelineError } from '../../../core/errors.ts';
import { sqliteTrouble } from '../sqlite-trouble.ts';

const codeOf = (thrown: unknown): string =>
  thrown instanceof Error && 'code' in thrown ? String(thrown.code) : '';

const FULL = ['ENOSPC', 'EDQUOT', 'SQLITE_FULL'];
const GONE = ['ENOENT', 'ENOTDIR', 'ENODEV', 'ENXIO', 'SQLITE_CANTOPEN'];
const LOCKED = ['EACCES', 'EPERM', 'EROFS', 'SQLITE_READONLY'];
const BROKEN = ['EIO', 'SQLITE_IOERR'];

/**
 * What went wrong while a copy was written to `folder`, in plain words: a full disk, a drive that was
 * pulled, a folder that may not be written to. Anything else keeps its own words.
 */
export function copyTrouble(thrown: unknown, folder: string): WakelineError {
  if (thrown instanceof WakelineError) return thrown;
  const code = codeOf(thrown);
  const is = (codes: readonly string[]) => codes.some((one) => code.startsWith(one));
  const kept = 'The ledger itself was not touched, and no half copy was left.';
  if (is(FULL)) {
    return new WakelineError(
      {
        code: 'disk-full',
        what: 'The disk that the copy goes to is full',
        where: folder,
        todo: `Make room there or choose another folder, then do it again. ${kept}`,
      },
      { cause: thrown },
    );
  }
  if (is(GONE) || is(BROKEN)) {
    return new WakelineError(
      {
        code: 'folder-missing',
        what: is(BROKEN)
          ? 'The folder for the copy stopped answering'
          : 'The folder for the copy is not there any more',
        where: folder,
        todo: `Plug the drive in again or choose another folder, then do it again. The ledger itself was not touched.`,
      },
      { cause: thrown },
    );
  }
  if (is(LOCKED)) {
    return new WakelineError(
      {
        code: 'file-not-written',
        what: 'This folder may not be written to',
        where: folder,
        todo: `Choose a folder of your own, then do it again. ${kept}`,
      },
      { cause: thrown },
    );
  }
  return new WakelineError(sqliteTrouble(thrown, folder), { cause: thrown });
}

/** The person who asked for it changed their mind. */
export function cancelled(what: string): WakelineError {
  return new WakelineError({
    code: 'cancelled',
    what: `${what} was called off`,
    where: 'copies of the ledger',
    todo: 'Nothing was changed and nothing was left half-written. Start it again when you like.',
  });
}
