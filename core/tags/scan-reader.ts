import { isTagCode } from './tag-code.ts';

/** A key as the window hears it. */
export interface ScannedKey {
  readonly key: string;
  /** Milliseconds on the window's clock. */
  readonly atMs: number;
  /** Whether it goes into a field. */
  readonly isTyping: boolean;
  readonly hasModifier: boolean;
}

/** What a key means to the reader of scans. */
export interface ScanAnswer {
  /** The key is the scanner's and must do nothing else. */
  readonly isTaken: boolean;
  /** It may be the first of a scan: remember what the field held. */
  readonly begins: boolean;
  /** The eight digits, once Enter has ended them; null before. */
  readonly scanned: string | null;
}

/** Keys of a scanner come closer than this; hands with eight digits and Enter do not. Common practice, no source. */
const CLOSE_MS = 50;
const LENGTH = 8;
const NOTHING: ScanAnswer = { isTaken: false, begins: false, scanned: null };

/**
 * Tells a scanner, which types a tag's digits and Enter, from hands. Its first digit (5 to 9) means
 * nothing to the window's keys. Outside a field the rest is taken from them as it comes; in a field
 * it is let through, and only the Enter of a code whose check digit fits is taken.
 */
export function createScanReader(): (key: ScannedKey) => ScanAnswer {
  let digits = '';
  let lastMs = Number.NEGATIVE_INFINITY;
  return ({ key, atMs, isTyping, hasModifier }) => {
    const isClose = atMs - lastMs <= CLOSE_MS;
    lastMs = atMs;
    if (!isClose) digits = '';
    if (hasModifier) {
      digits = '';
      return NOTHING;
    }
    if (/^\d$/u.test(key)) {
      if (digits === '') {
        const begins = /[5-9]/u.test(key);
        digits = begins ? key : '';
        return { ...NOTHING, begins };
      }
      digits += key;
      return { ...NOTHING, isTaken: !isTyping };
    }
    const scanned = key === 'Enter' && digits.length === LENGTH ? digits : null;
    digits = '';
    // A scanner outside a field deserves a word about a wrong code; a number in a field may be anything.
    if (scanned === null || (isTyping && !isTagCode(scanned))) return NOTHING;
    return { isTaken: true, begins: false, scanned };
  };
}
