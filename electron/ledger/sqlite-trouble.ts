import { type ErrorCode, type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';

interface Words {
  readonly code: ErrorCode;
  readonly what: string;
  readonly todo: string;
}

/** SQLite's result codes, by how they begin, in plain words. */
const WORDS: readonly (readonly [prefix: string, words: Words])[] = [
  [
    'SQLITE_FULL',
    {
      code: 'disk-full',
      what: 'The disk that holds the ledger is full; what could not be written was not changed',
      todo: 'Free some space on that disk, then do it again. Everything written before is kept.',
    },
  ],
  [
    'SQLITE_BUSY',
    {
      code: 'ledger-busy',
      what: 'The ledger is in use by another program',
      todo: 'Close the other window or program that has it open, then start again.',
    },
  ],
  [
    'SQLITE_NOTADB',
    {
      code: 'not-a-ledger',
      what: 'The file is not a ledger: it does not hold a database',
      todo: 'Choose the right file, or move this one away and a new ledger is made. It was not touched.',
    },
  ],
  [
    'SQLITE_CORRUPT',
    {
      code: 'ledger-damaged',
      what: 'The ledger file is damaged',
      todo: 'Copy the file to a safe place, then put the newest backup beside it back in its stead.',
    },
  ],
  [
    'SQLITE_READONLY',
    {
      code: 'ledger-read-only',
      what: 'The ledger file can be read but not written',
      todo: 'Allow writing to the file and its folder, or move it to a folder where you may write.',
    },
  ],
  [
    'SQLITE_CANTOPEN',
    {
      code: 'ledger-read-only',
      what: 'The ledger file could not be opened for writing',
      todo: 'Check that the folder exists and that you may write in it, then start again.',
    },
  ],
  [
    'SQLITE_IOERR',
    {
      code: 'ledger-damaged',
      what: 'The disk that holds the ledger did not read or write as asked',
      todo: 'Check the disk and its cable, copy the ledger file to another disk, then start again.',
    },
  ],
];

const codeOf = (thrown: unknown): string =>
  thrown instanceof Error && 'code' in thrown && typeof thrown.code === 'string' ? thrown.code : '';

/** Says in plain words what SQLite answered; anything that it did not say stays `internal`. */
export function sqliteTrouble(thrown: unknown, where: string): Trouble {
  if (thrown instanceof WakelineError) return thrown.trouble;
  const code = codeOf(thrown);
  const words = WORDS.find(([prefix]) => code.startsWith(prefix))?.[1];
  if (words === undefined) return troubleOf(thrown, where);
  return { ...words, where };
}

/** The same as an error to throw. */
export function sqliteError(thrown: unknown, where: string): WakelineError {
  if (thrown instanceof WakelineError) return thrown;
  return new WakelineError(sqliteTrouble(thrown, where), { cause: thrown });
}
