import { textOf } from './response-text.ts';

/** Longer than any reply that is asked for here: beyond it the bytes are no SCPI. */
const LONGEST_LINE = 4096;
const NUL = '\0';
const FLOW_CONTROL = ['\x11', '\x13'] as const;
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

/**
 * A line without what is no part of it: NUL as padding at its ends, and XON and XOFF. NUL inside is
 * left, because there it may stand for a lost digit, and so is everything in garbage.
 */
function said(text: string): string {
  let line = text.trim();
  for (const control of FLOW_CONTROL) {
    if (line.includes(control)) line = line.replaceAll(control, '');
  }
  while (line.startsWith(NUL)) line = line.slice(1).trimStart();
  while (line.endsWith(NUL)) line = line.slice(0, -1).trimEnd();
  return /^[\x20-\x7e]*$/.test(line) ? line : text.trim();
}

export function lineFramer(onLine: (line: string) => void): LineFramer {
  let held = '';
  let isTooLong = false;
  const end = (rest: string) => {
    const text = held + rest;
    const wasTooLong = isTooLong;
    held = '';
    isTooLong = false;
    if (wasTooLong) return;
    // An echo that ends with CR alone stands before its reply in one line.
    for (const one of text.includes('\r') ? text.split('\r') : [text]) {
      const line = said(one);
      if (line !== '') onLine(line);
    }
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
      return said(held);
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
