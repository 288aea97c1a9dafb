import { decodeQuoted } from './response-text.ts';

/** One entry of an instrument's error queue. Code 0 = the queue is empty. */
export interface ErrorEntry {
  readonly code: number;
  readonly text: string;
  /** What the instrument added after a semicolon, often the offending header. */
  readonly detail: string;
}

const ENTRY = /^([+-]?\d{1,6})(?:\s*,\s*|\s+(?=["']|no error))(["']?)(.*?)\2?$/is;
/** A code without words, as some queues answer. */
const BARE = /^[+-]?\d{1,6}$/;
const UNSOLICITED = /^(?:\[scpi\]\s*)?\*\*\s*ERROR\b[^:]*(?::[^-+\d]*|\[[^\]]*\]:\s*)/i;

/**
 * Reads a `SYST:ERR?` answer: `0,"No error"`, `+0,...`, a space after the comma, no quotes, and
 * `-113,"Undefined header;ABCD"` with its detail apart (tests of the open-source library
 * j123b567/scpi-parser). Undefined when it is none.
 */
export function decodeErrorEntry(text: string): ErrorEntry | undefined {
  const inside = text.trim();
  const trimmed = /^"[+-]?\d/.test(inside) ? (decodeQuoted(inside) ?? inside) : inside;
  if (/^no error\.?$/i.test(trimmed)) return { code: 0, text: 'No error', detail: '' };
  const parts = ENTRY.exec(trimmed);
  if (parts === null || !/[A-Za-z]/.test(parts[3]!)) return undefined;
  const quote = parts[2]!;
  const whole = quote === '' ? parts[3]! : parts[3]!.replaceAll(quote + quote, quote);
  const cut = whole.indexOf(';');
  return {
    code: Number(parts[1]),
    text: cut < 0 ? whole : whole.slice(0, cut),
    detail: cut < 0 ? '' : whole.slice(cut + 1),
  };
}

/**
 * The same where only a `SYST:ERR?` answer can have come: some queues answer a code and no words,
 * which anywhere else could be any number.
 */
export function decodeErrorAnswer(text: string): ErrorEntry | undefined {
  const trimmed = text.trim();
  if (!BARE.test(trimmed)) return decodeErrorEntry(trimmed);
  const code = Number(trimmed);
  return { code, text: code === 0 ? 'No error' : 'without words', detail: '' };
}

/**
 * Whether a line is an instrument talking out of turn (`**ERROR [date]: -113,"..."`,
 * `[scpi] **ERROR: ...`): no reply to anything. Returns the error in it, or null when it names none.
 */
export function unsolicitedError(line: string): ErrorEntry | null | undefined {
  if (!line.startsWith('**') && !/^\[scpi\]/i.test(line)) return undefined;
  const opening = UNSOLICITED.exec(line);
  if (opening === null) return null;
  const entry = /[+-]?\d{1,6}\s*,\s*["'].*$/s.exec(line);
  return entry === null ? null : (decodeErrorEntry(entry[0]) ?? null);
}

/** An error entry in words: `-113 Undefined header (ABCD)`. */
export function errorWords(entry: ErrorEntry): string {
  return `${entry.code} ${entry.text}${entry.detail === '' ? '' : ` (${entry.detail})`}`;
}
