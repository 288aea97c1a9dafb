import { type FormEvent, useRef, useState } from 'react';
import type { Quantity } from '../../core/job/job.ts';
import { UNIT_OF } from '../../core/units/format-reading.ts';
import { parseQuantity } from '../../core/units/parse.ts';
import { shownDecimals } from '../../core/units/shown-decimals.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useDeskState } from '../state/use-desk.ts';
import { MeterNow } from './meter-now.tsx';
import { useKeepReading } from './use-keep-reading.ts';

interface Props {
  readonly jobId: string | null;
  /** False while the next step takes a reading: the key is that step's then. */
  readonly hasKey: boolean;
}

/**
 * A reading that no step asks for: where it was taken, and the meter's value or a typed one. With
 * no job on the bench it is kept loose, to be given to a job later.
 */
export function FreeReading({ jobId, hasKey }: Props) {
  const addReading = useKeepReading(jobId);
  const meter = useDeskState((state) => state.bench?.meter ?? null);
  const place = useRef<HTMLInputElement | null>(null);
  const [text, setText] = useState({ place: '', value: '' });
  const [wrong, setWrong] = useState<string | null>(null);
  const isLive = meter?.link === 'live' && meter.quantity !== null;
  const quantity: Quantity = meter?.quantity ?? 'volts';
  useKey('takeReading', () => place.current?.focus(), hasKey);

  const found = () => {
    if (text.value.trim() !== '') {
      const parsed = parseQuantity(text.value, UNIT_OF[quantity]);
      if (!parsed.ok) {
        setWrong(`${parsed.what}. ${parsed.todo}`);
        return null;
      }
      const decimals = parsed.overload ? null : Math.min(12, Math.max(0, parsed.decimals));
      return { value: parsed.value, overload: parsed.overload, decimals, source: 'typed' as const };
    }
    if (isLive && meter !== null && (meter.value !== null || meter.overload)) {
      return {
        value: meter.overload ? null : meter.value,
        overload: meter.overload,
        decimals: shownDecimals(quantity, meter.decimals, meter.value),
        source: 'meter' as const,
      };
    }
    setWrong('There is no meter reading to take. Type the value.');
    return null;
  };
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    setWrong(null);
    const reading = found();
    if (reading === null) return;
    const { source, ...rest } = reading;
    const kept = await addReading(
      null,
      { quantity, place: text.place.trim(), expectedLow: null, expectedHigh: null, ...rest },
      source,
    );
    if (!kept) return;
    setText({ place: '', value: '' });
    place.current?.blur();
  };
  return (
    <form
      className="free-reading"
      aria-label="Another reading"
      onSubmit={(event) => void onSubmit(event)}
    >
      <h3>Another reading {hasKey && <KeyCap>R</KeyCap>}</h3>
      {isLive && <MeterNow />}
      <label className="field field-place">
        Where
        <input
          ref={place}
          className="field-input"
          autoComplete="off"
          maxLength={200}
          value={text.place}
          onChange={(event) => setText({ ...text, place: event.target.value })}
        />
      </label>
      <label className="field field-typed">
        {isLive ? `Or typed, ${UNIT_OF[quantity]}` : `Value, ${UNIT_OF[quantity]}`}
        <input
          className="field-input"
          autoComplete="off"
          maxLength={200}
          value={text.value}
          onChange={(event) => setText({ ...text, value: event.target.value })}
        />
      </label>
      <button type="submit" className="plain">
        Keep it
      </button>
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
    </form>
  );
}
