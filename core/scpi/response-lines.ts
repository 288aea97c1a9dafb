import { textOf } from './response-text.ts';

/** Longer than any reply that is asked for here: beyond it the bytes are no SCPI. */
const LONGEST_LINE = 4096;
const LINE_FEED = 10;

/**
 * Cuts a byte stream into lines at LF, strips CR and blanks at both ends (a device that ends with
 * LF CR puts its CR before the next reply) and drops empty lines. A reply may arrive in any
 * number of pieces; one read is never taken for one reply.
 */
export interface LineFramer {
  /** Takes a piece and calls back with each line that it completes. */
  push(bytes: Uint8Array): void;
  /** What has arrived of a line that has not ended yet. */
  readonly partial: string;
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
  return {
    push(bytes) {
      let from = 0;
      for (;;) {
        const at = bytes.indexOf(LINE_FEED, from);
        if (at < 0) break;
        end(textOf(bytes, from, at));
        from = at + 1;
      }
      if (isTooLong || from >= bytes.length) return;
      held += textOf(bytes, from);
      if (held.length > LONGEST_LINE) {
        held = held.slice(0, 80);
        isTooLong = true;
      }
    },
    get partial() {
      return held.trim();
    },
    clear() {
      held = '';
      isTooLong = false;
    },
  };
}
