import type { Quantity } from '../job/job.ts';
import { decodeNumber, type NumericReply, withPoint } from '../scpi/response-number.ts';
import type { ReplyShape } from '../scpi/response-shape.ts';
import { splitReply } from '../scpi/response-text.ts';
import type { UnitOf } from '../scpi/response-unit.ts';
import { decodeFunction } from './meter-function.ts';

/** Which unit a reading of each quantity may carry. */
export const UNIT_OF: Readonly<Record<Quantity, UnitOf>> = {
  volts: 'V',
  diode: 'V',
  ohms: 'OHM',
  continuity: 'OHM',
  amps: 'A',
};

/** How a number is written, its digits left out: readings of one kind are written alike. */
const formOf = (text: string) => text.replace(/^[+-]/, '').replaceAll(/\d/g, '0');

/**
 * A meter's reading. Of several readings in one reply the newest is taken; of a reading with its
 * time and count beside it, the reading.
 */
export const readingReply: ReplyShape<NumericReply> = {
  due: 'a reading',
  decode(text) {
    const fields = splitReply(withPoint(text), ',');
    const first = decodeNumber(fields[0]!);
    if (fields.length === 1 || first === undefined) return first;
    const replies = fields.map(decodeNumber);
    if (replies.some((reply) => reply === undefined)) return undefined;
    const isRow = fields.every((field) => formOf(field) === formOf(fields[0]!));
    return isRow ? replies.at(-1) : first;
  },
};

/** The function that a meter is in, with the word it used. */
export interface ToldFunction {
  readonly quantity: Quantity | null;
  readonly word: string;
}

export const functionReply: ReplyShape<ToldFunction> = {
  due: 'the function of the meter',
  decode(text) {
    const quantity = decodeFunction(text);
    return quantity === undefined ? undefined : { quantity, word: text };
  },
};
