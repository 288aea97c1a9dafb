/**
 * Every failure the product can name. Thrown inside a process as `WakelineError`;
 * carried across a process border as a `Result`.
 */
export type ErrorCode =
  // devices
  | 'port-not-opened'
  | 'port-lost'
  | 'no-answer'
  | 'bad-reply'
  | 'instrument-refused'
  | 'out-of-range'
  | 'not-connected'
  | 'cannot-switch'
  | 'watcher-lost'
  | 'watcher-acted'
  | 'guard-tripped'
  | 'bad-dialect'
  // files
  | 'bad-trace-file'
  | 'bad-chunk'
  | 'not-a-ledger'
  | 'ledger-read-only'
  | 'ledger-newer'
  | 'ledger-damaged'
  | 'ledger-busy'
  | 'disk-full'
  | 'migration-failed'
  | 'file-not-written'
  | 'bad-picture'
  | 'picture-lost'
  | 'folder-missing'
  | 'bad-export'
  | 'export-newer'
  | 'bad-backup'
  | 'cancelled'
  // people and calls
  | 'bad-input'
  | 'not-found'
  | 'gate-closed'
  | 'needs-confirmation'
  | 'refused-sender'
  | 'internal';

/** What went wrong, where, and what to do about it: the three parts of every message. */
export interface Trouble {
  readonly code: ErrorCode;
  readonly what: string;
  readonly where: string;
  readonly todo: string;
}

/** The only error class that the product throws on purpose. */
export class WakelineError extends Error {
  readonly trouble: Trouble;

  constructor(trouble: Trouble, options?: { cause?: unknown }) {
    super(`${trouble.what} (${trouble.where}). ${trouble.todo}`, options);
    this.name = 'WakelineError';
    this.trouble = trouble;
  }
}

/** The outcome of a call that crossed a process border. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly trouble: Trouble };

/** Turns anything thrown into a `Trouble`; unknown failures become `internal` with their text. */
export function troubleOf(thrown: unknown, where: string): Trouble {
  if (thrown instanceof WakelineError) return thrown.trouble;
  const what = thrown instanceof Error ? thrown.message : String(thrown);
  return {
    code: 'internal',
    what,
    where,
    todo: 'Nothing stored was changed. Try again; if it comes back, save the byte log and report it.',
  };
}
