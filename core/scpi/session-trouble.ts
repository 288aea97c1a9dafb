import type { Trouble } from '../errors.ts';
import { type ErrorEntry, errorWords } from './response-error.ts';
import { shownReply } from './response-text.ts';

/** The link went away while something was asked or before. */
export function lostTrouble(where: string): Trouble {
  return {
    code: 'port-lost',
    what: 'The connection to the instrument is gone',
    where,
    todo: 'Check the cable and that the instrument is on; it reconnects by itself.',
  };
}

/** Nothing came back in time. */
export function silentTrouble(where: string, sent: string, timeoutMs: number): Trouble {
  return {
    code: 'no-answer',
    what: `No answer to ${sent} within ${Math.round(timeoutMs)} ms`,
    where,
    todo: 'Check cable, baud rate and that remote control is on at the instrument; the byte log shows what went over the line.',
  };
}

/** Something came back that is not what was asked for. */
export function badReplyTrouble(
  where: string,
  sent: string,
  came: string,
  due: string,
  isCut: boolean,
): Trouble {
  const cut = isCut ? ', cut off before its end' : '';
  return {
    code: 'bad-reply',
    what: `Asked ${sent} and got "${shownReply(came)}"${cut}, where ${due} was due`,
    where,
    todo: 'The reading was dropped. If it keeps happening, check baud rate and cable, and save the byte log.',
  };
}

/** The instrument took the message and said no. */
export function refusedTrouble(
  where: string,
  sent: string,
  errors: readonly ErrorEntry[],
): Trouble {
  const isLocal = errors.some((entry) => entry.code === -203 || /local|remote/i.test(entry.text));
  return {
    code: 'instrument-refused',
    what: `${sent} was refused: ${errors.map(errorWords).join('; ')}`,
    where,
    todo: isLocal
      ? 'Switch the instrument to remote control at its front panel, or unlock it, and try again.'
      : 'Look at the instrument: its state or range does not allow this.',
  };
}

/** A message that waited its turn and must not be sent any more. */
export function overtakenTrouble(where: string, sent: string): Trouble {
  return {
    code: 'instrument-refused',
    what: `${sent} was not sent: output off was asked for meanwhile`,
    where,
    todo: 'Ask again when it is safe to.',
  };
}
