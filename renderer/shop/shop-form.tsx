import { type FormEvent, useState } from 'react';
import type { ShopSettings } from '../../core/shop/job-terms.ts';
import { currencyDigits, isCurrencyCode, parseMoney } from '../../core/shop/money.ts';
import { useActions } from '../state/use-desk.ts';
import { MoneyField } from './money-field.tsx';

/** What the shop sets once: its currency, the price of an hour, how long it answers for a repair. */
export function ShopForm({ shop, onKept }: { shop: ShopSettings; onKept: () => void }) {
  const { tryAsk, say } = useActions();
  const [currency, setCurrency] = useState(shop.currency ?? '');
  const [hour, setHour] = useState(
    shop.currency === null || shop.hourMinor === 0
      ? ''
      : (shop.hourMinor / 10 ** currencyDigits(shop.currency)).toFixed(
          currencyDigits(shop.currency),
        ),
  );
  const [days, setDays] = useState(String(shop.warrantyDays));
  const [wrong, setWrong] = useState<{ field: 'currency' | 'hour' | 'days'; words: string } | null>(
    null,
  );
  const code = currency.trim().toUpperCase();
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (!isCurrencyCode(code)) {
      setWrong({ field: 'currency', words: 'Type the three letters of the currency, as in EUR.' });
      return;
    }
    const price = hour.trim() === '' ? { ok: true as const, minor: 0 } : parseMoney(hour, code);
    if (!price.ok) {
      setWrong({ field: 'hour', words: `${price.what}. ${price.todo}` });
      return;
    }
    if (!/^\d{1,4}$/u.test(days.trim()) || Number(days) > 3650) {
      setWrong({ field: 'days', words: 'Type whole days, 0 for none.' });
      return;
    }
    const kept = await tryAsk('saveShop', {
      currency: code,
      hourMinor: price.minor,
      warrantyDays: Number(days),
    });
    if (!kept.ok) {
      setWrong({ field: 'currency', words: `${kept.trouble.what}. ${kept.trouble.todo}` });
      return;
    }
    setWrong(null);
    say('Kept.');
    onKept();
  };
  return (
    <form className="shop-form" onSubmit={(event) => void onSubmit(event)} noValidate>
      <label className="field">
        Currency: three letters
        <input
          className="field-input"
          maxLength={3}
          autoComplete="off"
          value={currency}
          aria-invalid={wrong?.field === 'currency'}
          onChange={(event) => setCurrency(event.target.value)}
        />
      </label>
      <MoneyField
        label="An hour at the bench"
        currency={isCurrencyCode(code) ? code : 'not set'}
        value={hour}
        wrong={wrong?.field === 'hour' ? wrong.words : null}
        onChange={setHour}
      />
      <label className="field">
        Days of warranty offered
        <input
          className="field-input"
          inputMode="numeric"
          maxLength={4}
          value={days}
          aria-invalid={wrong?.field === 'days'}
          onChange={(event) => setDays(event.target.value)}
        />
      </label>
      {wrong !== null && wrong.field !== 'hour' && (
        <p role="alert" className="form-wrong wide">
          {wrong.words}
        </p>
      )}
      <p className="quiet wide">
        The currency stays once an amount is written: amounts in two currencies cannot be added.
      </p>
      <div className="form-keys">
        <button type="submit" className="plain strong">
          Keep
        </button>
      </div>
    </form>
  );
}
