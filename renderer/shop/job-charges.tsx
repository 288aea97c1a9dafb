import { type FormEvent, useState } from 'react';
import { type Charge, chargeMinor, totalsOf } from '../../core/shop/charge.ts';
import type { JobTerms, ShopSettings } from '../../core/shop/job-terms.ts';
import { currencyDigits, formatMoney, parseMoney } from '../../core/shop/money.ts';
import { HeadedTable } from '../parts/headed-table.tsx';
import { useActions } from '../state/use-desk.ts';
import { FormKeys } from './form-keys.tsx';
import { LineField } from './line-field.tsx';
import { MoneyField } from './money-field.tsx';

interface Typed {
  readonly kind: Charge['kind'];
  readonly words: string;
  readonly quantity: string;
  readonly price: string;
}

/** Parts and time of a job as lines, with what they come to. */
export function JobCharges({ terms, shop }: { terms: JobTerms; shop: ShopSettings }) {
  const { ask } = useActions();
  const [typed, setTyped] = useState<Typed | null>(null);
  const [wrong, setWrong] = useState<{ field: 'quantity' | 'price'; words: string } | null>(null);
  const { currency } = shop;
  if (currency === null && terms.charges.length === 0) return null;
  const begin = (kind: Charge['kind']) => {
    setWrong(null);
    setTyped({
      kind,
      words: '',
      quantity: kind === 'time' ? '' : '1',
      price: kind === 'time' && currency !== null ? plainMoney(shop.hourMinor, currency) : '',
    });
  };
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (typed === null || currency === null) return;
    const price = parseMoney(typed.price, currency);
    if (!price.ok) {
      setWrong({ field: 'price', words: `${price.what}. ${price.todo}` });
      return;
    }
    const count = countOf(typed);
    if (count === null) {
      const words =
        typed.kind === 'time'
          ? 'Type minutes like 45, or hours and minutes like 1:20.'
          : 'Type a count like 1 or 2.5, with three digits after the point at most.';
      setWrong({ field: 'quantity', words });
      return;
    }
    setWrong(null);
    const charge = {
      kind: typed.kind,
      words: typed.words.trim(),
      partId: null,
      quantityMilli: typed.kind === 'time' ? 0 : count,
      minutes: typed.kind === 'time' ? count : 0,
      unitMinor: price.minor,
    };
    if ((await ask('addCharge', { jobId: terms.jobId, charge })) !== null) setTyped(null);
  };
  return (
    <div className="shop-block">
      <div className="part-head">
        <h3>Parts and time</h3>
        {typed === null && currency !== null && (
          <span className="shop-keys">
            <button type="button" className="plain" onClick={() => begin('part')}>
              Add a part's price
            </button>
            <button type="button" className="plain" onClick={() => begin('time')}>
              Add time
            </button>
          </span>
        )}
      </div>
      {terms.charges.length === 0 ? (
        typed === null && <p className="quiet">No line yet.</p>
      ) : (
        <HeadedTable heads={['For', 'How much', 'Each', 'Comes to', '']}>
          {terms.charges.map((charge) => (
            <tr key={charge.id} data-ref={charge.id}>
              <td>{charge.words === '' ? KIND_WORDS[charge.kind] : charge.words}</td>
              <td className="number">
                {charge.kind === 'time'
                  ? minutesWords(charge.minutes)
                  : `${charge.quantityMilli / 1000}`}
              </td>
              <td className="number">
                {formatMoney(charge.unitMinor, charge.currency)}
                {charge.kind === 'time' && ' an hour'}
              </td>
              <td className="number">{formatMoney(chargeMinor(charge), charge.currency)}</td>
              <td>
                <button
                  type="button"
                  className="plain"
                  onClick={() => void ask('dropCharge', { chargeId: charge.id })}
                >
                  Take out
                  <span className="heard-only"> {charge.words || KIND_WORDS[charge.kind]}</span>
                </button>
              </td>
            </tr>
          ))}
          {totalsOf(terms.charges).map((total) => (
            <tr key={total.currency} className="charge-total">
              <td>Total</td>
              <td className="number">
                {total.minutes > 0 ? `${minutesWords(total.minutes)} in all` : ''}
              </td>
              <td />
              <td className="number">
                <strong>{formatMoney(total.minor, total.currency)}</strong>
              </td>
              <td />
            </tr>
          ))}
        </HeadedTable>
      )}
      {typed !== null && currency !== null && (
        <form className="shop-form" onSubmit={(event) => void onSubmit(event)} noValidate>
          <LineField
            label="For what"
            value={typed.words}
            onChange={(text) => setTyped({ ...typed, words: text })}
            isWide
          />
          <LineField
            label={typed.kind === 'time' ? 'Time: minutes, or 1:20' : 'How many'}
            value={typed.quantity}
            onChange={(text) => setTyped({ ...typed, quantity: text })}
            isWrong={wrong?.field === 'quantity'}
            inputMode="decimal"
          />
          <MoneyField
            label={typed.kind === 'time' ? 'An hour' : 'Each'}
            currency={currency}
            value={typed.price}
            wrong={wrong?.field === 'price' ? wrong.words : null}
            onChange={(price) => setTyped({ ...typed, price })}
          />
          {wrong?.field === 'quantity' && (
            <p role="alert" className="form-wrong wide">
              {wrong.words}
            </p>
          )}
          <FormKeys does="Keep the line" onLeave={() => setTyped(null)} />
        </form>
      )}
    </div>
  );
}

const KIND_WORDS: Readonly<Record<Charge['kind'], string>> = {
  part: 'Part',
  time: 'Time at the bench',
  other: 'Other',
};

/** `1 h 20 min`. */
function minutesWords(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  return [hours > 0 ? `${hours} h` : '', rest > 0 || hours === 0 ? `${rest} min` : '']
    .filter(Boolean)
    .join(' ');
}

const plainMoney = (minor: number, currency: string): string =>
  minor === 0 ? '' : (minor / 10 ** currencyDigits(currency)).toFixed(currencyDigits(currency));

/** Minutes of time, or thousandths of a count; null when it cannot be read. */
function countOf(typed: Typed): number | null {
  const text = typed.quantity.trim().replace(',', '.');
  if (typed.kind === 'time') {
    const clock = /^(\d{1,4}):([0-5]\d)$/u.exec(text);
    if (clock !== null) return Number(clock[1]) * 60 + Number(clock[2]);
    return /^\d{1,5}$/u.test(text) ? Number(text) : null;
  }
  const match = /^(\d{1,6})(?:\.(\d{1,3}))?$/u.exec(text);
  if (match === null) return null;
  return Number(match[1]) * 1000 + Number((match[2] ?? '').padEnd(3, '0'));
}
