import { decodeNumber } from './response-number.ts';
import type { ReplyShape } from './response-shape.ts';
import { decodeQuoted, splitReply } from './response-text.ts';

/** Both set-points in one answer, with the range where it tells one. */
export interface Applied {
  readonly setV: number;
  readonly limitA: number;
  readonly maxV: number | null;
  readonly maxA: number | null;
}

const RANGE = /^(?:[A-Z]+\d*\s*:\s*)?([\d.]+)\s*V\s*\/\s*([\d.]+)\s*A$/i;

/**
 * The answer to `APPL?`: `3.3000, 0.1000`, `"3.300,0.100"`, or with the range of the channel
 * before it, `CH1:40.00V/5.000A, 3.30, 0.1000`.
 */
export const appliedReply: ReplyShape<Applied> = {
  due: 'set volts and limit',
  decode(text) {
    const fields = splitReply(decodeQuoted(text) ?? text, ',');
    const range = RANGE.exec(fields[0]!);
    const [volts, amps, ...more] = fields.slice(range === null ? 0 : 1).map(decodeNumber);
    if (volts?.kind !== 'value' || amps?.kind !== 'value' || more.length > 0) return undefined;
    if ((volts.unit ?? 'V') !== 'V' || (amps.unit ?? 'A') !== 'A') return undefined;
    return {
      setV: volts.value,
      limitA: amps.value,
      maxV: range === null ? null : Number(range[1]),
      maxA: range === null ? null : Number(range[2]),
    };
  },
};
