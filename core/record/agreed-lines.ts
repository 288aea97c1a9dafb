import { totalsOf } from '../shop/charge.ts';
import type { AnsweredHow, JobTerms } from '../shop/job-terms.ts';
import { formatMoney } from '../shop/money.ts';
import type { ShopClock } from './record-time.ts';

const HOW: Readonly<Record<AnsweredHow, string>> = {
  'in-person': ' in person',
  'by-phone': ' by telephone',
  'in-writing': ' in writing',
};

/** What was agreed and what it came to, a sentence each, for the owner's page: the newest quote counts. */
export function agreedLines(terms: JobTerms | null, clock: ShopClock): string[] {
  if (terms === null) return [];
  const quote = terms.quotes.at(-1);
  const lines: string[] = [];
  if (quote !== undefined) {
    const what = quote.words.trim() === '' ? '' : ` for ${quote.words.trim()}`;
    const asked = `${formatMoney(quote.amountMinor, quote.currency)}${what}, quoted on ${clock.date(quote.madeAt)}`;
    const how = quote.answeredHow === null ? '' : HOW[quote.answeredHow];
    const answered =
      quote.answer === 'open' || quote.answeredAt === null
        ? 'not answered yet'
        : `${quote.answer}${how} on ${clock.date(quote.answeredAt)}`;
    lines.push(`${asked}, ${answered}.`);
  }
  for (const total of totalsOf(terms.charges)) {
    lines.push(`Parts and time come to ${formatMoney(total.minor, total.currency)}.`);
  }
  return lines;
}
