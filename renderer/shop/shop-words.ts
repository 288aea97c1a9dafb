import type { AnsweredHow } from '../../core/shop/job-terms.ts';

export const HOW_WORDS: Readonly<Record<AnsweredHow, string>> = {
  'in-person': 'in person',
  'by-phone': 'by telephone',
  'in-writing': 'in writing',
};

/** A day `YYYY-MM-DD` by this machine's clock. */
export function localDay(at: number): string {
  const date = new Date(at);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
