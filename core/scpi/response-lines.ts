import { textOf } from './response-text.ts';

/** Longer than any reply that is asked for here: beyond it the bytes are no SCPI. */
const LONGEST_LINE = 4096;
export const LINE_FEED = 10;
export const CARRIAGE_RETURN = 13;

/**
 * Cuts a byte stream into lines at LF, strips CR and blanks at both ends (a device that ends with
 * LF CR puts its CR before the next reply) and drops empty lines. A reply may arrive in any
 * number of pieces; one read is never taken for one reply.
 */
export interface LineFramer {
  /** Takes a piece and calls back with each line that it completes. */
  push(bytes: Uint8Array): void;
  /** The byte that ends a line: LF, or CR on instruments that send nothing else. */
  endByte: number;
  /** What has arrived of a line that has not ended yet, blanks stripped. */
  readonly partial: string;
  /** Whether what has arrived of it ends in CR. */
  readonly isAtReturn: boolean;
  /** Throws away what has arrived of an unfinished line. */
  clear(): void;
}

export function lineFramer(onLine: (line: string) => void): LineFramer {
  let held = '';
  let isTooLong = false;
  const end = (rest: string) => {
    const line = (held + rest).trim();
    const wasTooLong = isTooLong;
    held = '';
    isTooLong = false;
    if (line !== '' && !wasTooLong) onLine(line);
  };
  const framer: LineFramer = {
    endByte: LINE_FEED,
    push(bytes) {
      let from = 0;
      for (;;) {
        const at = bytes.indexOf(framer.endByte, from);
        if (at < 0) break;
        end(textOf(bytes, from, at));
        from = at + 1;
      }
      if (from >= bytes.length) return;
      if (isTooLong) return;
      held += textOf(bytes, from);
      if (held.length > LONGEST_LINE) {
        held = held.slice(0, 80);
        isTooLong = true;
      }
    },
    get partial() {
      return held.trim();
    },
    get isAtReturn() {
      return held.trimEnd() !== held && held.endsWith('\r');
    },
    clear() {
      held = '';
      isTooLong = false;
    },
  };
  return framer;
}
