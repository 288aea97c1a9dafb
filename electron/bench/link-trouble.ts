import { type ErrorCode, WakelineError } from '../../core/errors.ts';

/** Why a way to an instrument did not open, and what to do, in the words of the case. */
export function notOpened(name: string, cause: unknown): WakelineError {
  const text = cause instanceof Error ? cause.message : String(cause);
  const known = CASES.find(([pattern]) => pattern.test(text));
  return new WakelineError(
    {
      code: 'port-not-opened',
      what: known === undefined ? `It did not open: ${text}` : known[1],
      where: name,
      todo: known === undefined ? 'Check that it is plugged in and switched on.' : known[2],
    },
    { cause },
  );
}

const CASES: readonly (readonly [RegExp, string, string])[] = [
  [
    /lock|busy|EBUSY|access denied/i,
    'Another program holds this port',
    'Close the other program, or choose another port.',
  ],
  [
    /EACCES|permission denied/i,
    'This account may not use the port',
    'Give the account the right to serial ports (on Linux: the dialout group), then log in again.',
  ],
  [
    /ENOENT|no such file|file not found/i,
    'There is no such port',
    'Plug the instrument in, or choose it from the list of ports.',
  ],
  [/ECONNREFUSED/, 'The instrument refused the connection', 'Check its address and port number.'],
  [
    /ENOTFOUND|EAI_AGAIN/,
    'No instrument of that name on the network',
    'Check the name, or type its address.',
  ],
  [
    /ETIMEDOUT|EHOSTUNREACH|ENETUNREACH/,
    'The instrument was not reached',
    'Check that it is on, and the network cable.',
  ],
];

/** Bytes handed to a link that is gone. */
export function linkLost(name: string, code: ErrorCode = 'port-lost'): WakelineError {
  return new WakelineError({
    code,
    what: 'The connection to the instrument is gone',
    where: name,
    todo: 'Check the cable and that the instrument is on; it reconnects by itself.',
  });
}
