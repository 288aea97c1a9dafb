import JsBarcode from 'jsbarcode';

/** What the encoder hands over: 1 is ink, one sign a module. */
interface Encoded {
  readonly encodings?: readonly { readonly data: string }[];
}

/** A bar: where it begins and how wide it is, in modules. */
export interface Bar {
  readonly at: number;
  readonly width: number;
}

/** Blank modules on each side (ISO/IEC 15417, 4.8: ten at least). */
export const QUIET = 10;

/** The bars of digits in Code 128, code set C, and how many modules they take without the blanks. */
export function codeBars(digits: string): {
  readonly bars: readonly Bar[];
  readonly modules: number;
} {
  const target: Encoded = {};
  JsBarcode(target, digits, { format: 'CODE128C' });
  const data = (target.encodings ?? []).map((part) => part.data).join('');
  const bars = [...data.matchAll(/1+/gu)].map((ink) => ({ at: ink.index, width: ink[0].length }));
  return { bars, modules: data.length };
}
