import { dammDigit } from './damm.ts';

/** Digits of a tag's code with its check digit. */
const LENGTH = 8;

/**
 * A bag tag's code is eight digits, the last a check digit by Damm. Only digits, because a scanner
 * types them into whatever has the focus: no letter may arm an output. The first is 5 to 9, which no
 * key of the window answers to.
 */
export function isTagCode(text: string): boolean {
  const plain = plainTagCode(text);
  return /^[5-9]\d{7}$/u.test(plain) && dammDigit(plain) === 0;
}

/** A code without the blanks and dashes that people put between its halves. */
export const plainTagCode = (text: string): string => text.replace(/[\s-]+/gu, '');

/** The code that `random` (0 up to but not 1) stands for: one of five million. */
export function tagCodeFrom(random: number): string {
  const payload = 5_000_000 + Math.floor(random * 5_000_000);
  const digits = String(payload).slice(0, LENGTH - 1);
  return `${digits}${dammDigit(digits)}`;
}

/** A code as it is printed and read out: two groups of four. */
export const shownTagCode = (code: string): string => `${code.slice(0, 4)} ${code.slice(4)}`;

/** Whether text has the shape of a code, right or wrong: then a wrong one deserves a word. */
export const isLikeTagCode = (text: string): boolean => /^[5-9]\d{7}$/u.test(plainTagCode(text));
