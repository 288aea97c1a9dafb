import { decodeErrorAnswer, decodeErrorEntry, type ErrorEntry } from './response-error.ts';
import { decodeNumber, type NumericReply, withPoint } from './response-number.ts';
import { decodeBoolean, decodeWord, splitReply } from './response-text.ts';
import type { UnitOf } from './response-unit.ts';

/** What a reply must look like. A line that does not decode is not the reply to this query. */
export interface ReplyShape<T> {
  /** What is due, for a person: "a number in volts". */
  readonly due: string;
  /** Undefined = does not fit. */
  decode(text: string): T | undefined;
}

/** First letters of headers that instruments repeat before a reading of each quantity. */
const HEADED: Partial<Record<UnitOf, RegExp>> = {
  V: /^(?!I|A|CURR|P|W)/i,
  A: /^(?!V|P|W)/i,
};

/** One number; a unit or header that belongs to another quantity does not fit. */
export function numberIn(unit: UnitOf | null, due: string): ReplyShape<NumericReply> {
  return {
    due,
    decode(text) {
      const reply = decodeNumber(withPoint(text));
      if (reply === undefined || unit === null || reply.kind !== 'value') return reply;
      if (reply.unit !== null && reply.unit !== unit) return undefined;
      const lastWord = reply.header?.slice(reply.header.lastIndexOf(':') + 1) ?? null;
      if (lastWord !== null && HEADED[unit]?.test(lastWord) === false) return undefined;
      return reply;
    },
  };
}

export const voltsReply = numberIn('V', 'a number in volts');
export const ampsReply = numberIn('A', 'a number in amps');
export const numberReply = numberIn(null, 'a number');

/** A whole number that fits a 16-bit register. */
export const registerReply: ReplyShape<number> = {
  due: 'a register as a whole number',
  decode(text) {
    const reply = decodeNumber(text);
    if (reply?.kind !== 'value' || !Number.isInteger(reply.value) || reply.unit !== null) {
      return undefined;
    }
    return reply.value >= 0 && reply.value <= 0xffff ? reply.value : undefined;
  },
};

export const booleanReply: ReplyShape<boolean> = { due: '0, 1, OFF or ON', decode: decodeBoolean };
export const wordReply: ReplyShape<string> = { due: 'a word', decode: decodeWord };
export const errorReply: ReplyShape<ErrorEntry> = {
  due: 'an error-queue entry',
  decode: decodeErrorAnswer,
};

/** Who an instrument says it is: any text that is neither a number nor an error entry. */
export const identityReply: ReplyShape<string> = {
  due: 'an identity',
  decode(text) {
    const isOther = decodeNumber(text) !== undefined || decodeErrorEntry(text) !== undefined;
    return !isOther && /^[\x20-\x7e\xa0-\xff]{2,}$/.test(text) && /[A-Za-z]{2}/.test(text)
      ? text
      : undefined;
  },
};

/** The replies of a compound message, joined by semicolons in one line, each of its own shape. */
export function compoundReply<T extends readonly unknown[]>(
  shapes: {
    readonly [K in keyof T]: ReplyShape<T[K]>;
  },
): ReplyShape<T> {
  return {
    due: shapes.map((shape) => shape.due).join('; '),
    decode(text) {
      const fields = splitReply(text, ';');
      if (fields.length !== shapes.length) return undefined;
      const values: unknown[] = [];
      for (let i = 0; i < shapes.length; i += 1) {
        const value = shapes[i]!.decode(fields[i]!);
        if (value === undefined) return undefined;
        values.push(value);
      }
      return values as unknown as T;
    },
  };
}

/** Numbers between commas: several readings in one reply. */
export const numbersReply: ReplyShape<readonly NumericReply[]> = {
  due: 'numbers between commas',
  decode(text) {
    const replies = splitReply(text, ',').map(decodeNumber);
    return replies.every((reply) => reply !== undefined) ? replies : undefined;
  },
};
