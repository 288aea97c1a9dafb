import { type FormEvent, useState } from 'react';
import type { AnsweredHow, JobTerms, Quote, ShopSettings } from '../../core/shop/job-terms.ts';
import { formatMoney, parseMoney } from '../../core/shop/money.ts';
import { Pick } from '../parts/pick.tsx';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { FormKeys } from './form-keys.tsx';
import { LineField } from './line-field.tsx';
import { MoneyField } from './money-field.tsx';
import { NoCurrency } from './no-currency.tsx';
import { HOW_WORDS } from './shop-words.ts';

/** What was asked for the repair and what the customer said to it; the newest quote counts. */
export function JobQuotes({ terms, shop }: { terms: JobTerms; shop: ShopSettings }) {
  const { ask } = useActions();
  const [typed, setTyped] = useState<{ amount: string; words: string } | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const newest = terms.quotes.at(-1);
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (typed === null || shop.currency === null) return;
    const parsed = parseMoney(typed.amount, shop.currency);
    setWrong(parsed.ok ? null : `${parsed.what}. ${parsed.todo}`);
    if (!parsed.ok) return;
    const { jobId } = terms;
    const quote = { jobId, amountMinor: parsed.minor, words: typed.words.trim() };
    if ((await ask('addQuote', quote)) !== null) setTyped(null);
  };
  return (
    <div className="shop-block">
      <div className="part-head">
        <h3>Quote</h3>
        {typed === null && shop.currency !== null && (
          <button
            type="button"
            className="plain"
            onClick={() => setTyped({ amount: '', words: '' })}
          >
            {newest === undefined ? 'Make a quote' : 'Quote anew'}
          </button>
        )}
      </div>
      {shop.currency === null && <NoCurrency />}
      <ol>
        {terms.quotes.map((quote) => (
          <QuoteLine key={quote.id} quote={quote} isNewest={quote === newest} />
        ))}
      </ol>
      {terms.quotes.length === 0 && typed === null && shop.currency !== null && (
        <p className="quiet">Nothing quoted.</p>
      )}
      {typed !== null && shop.currency !== null && (
        <form className="shop-form" onSubmit={(event) => void onSubmit(event)} noValidate>
          <MoneyField
            label="Amount"
            currency={shop.currency}
            value={typed.amount}
            wrong={wrong}
            onChange={(amount) => setTyped({ ...typed, amount })}
          />
          <LineField
            label="For what"
            value={typed.words}
            onChange={(text) => setTyped({ ...typed, words: text })}
          />
          <FormKeys does="Keep quote and wait for approval" onLeave={() => setTyped(null)} />
        </form>
      )}
    </div>
  );
}

function QuoteLine({ quote, isNewest }: { quote: Quote; isNewest: boolean }) {
  const { ask } = useActions();
  const [how, setHow] = useState<AnsweredHow>('in-person');
  const [note, setNote] = useState('');
  const say = (answer: 'approved' | 'refused') =>
    void ask('answerQuote', { quoteId: quote.id, answer, how, note: note.trim() });
  return (
    <li className="shop-line" data-ref={quote.id}>
      <span>
        <strong className="number">{formatMoney(quote.amountMinor, quote.currency)}</strong>{' '}
        {quote.words}{' '}
        <span className="quiet">
          {dayWords(quote.madeAt)}
          {quote.answer === 'open' && !isNewest && ', replaced by a later quote'}
        </span>
        {quote.answer !== 'open' && quote.answeredAt !== null && (
          <>
            <br />
            <strong>{quote.answer === 'approved' ? 'Approved' : 'Refused'}</strong>{' '}
            <span className="quiet">
              {quote.answeredHow === null ? '' : `${HOW_WORDS[quote.answeredHow]}, `}
              {dayWords(quote.answeredAt)}, {timeWords(quote.answeredAt)}
              {quote.answerNote !== '' && `, ${quote.answerNote}`}
            </span>
          </>
        )}
      </span>
      {quote.answer === 'open' && isNewest && (
        <span className="shop-keys">
          <Pick label="They said so" value={how} onPick={(picked) => setHow(picked as AnsweredHow)}>
            {Object.entries(HOW_WORDS).map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </Pick>
          <label className="field">
            Who, or what else was said
            <input
              className="field-input"
              maxLength={200}
              value={note}
              onChange={(event) => setNote(event.target.value)}
            />
          </label>
          <button type="button" className="plain strong" onClick={() => say('approved')}>
            Approved
          </button>
          <button type="button" className="plain" onClick={() => say('refused')}>
            Refused
          </button>
        </span>
      )}
    </li>
  );
}
