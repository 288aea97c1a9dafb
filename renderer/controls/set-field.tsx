import { type FormEvent, type KeyboardEvent, useId, useRef, useState } from 'react';
import type { Result, Trouble } from '../../core/errors.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { parseQuantity } from '../../core/units/parse.ts';
import type { KeyAction } from '../keys/key-map.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';

interface Props {
  readonly name: string;
  readonly unit: 'V' | 'A';
  readonly value: number | null;
  readonly decimals: number;
  readonly keyAction: KeyAction;
  readonly keyShown: string;
  /** What this board states, offered in one press while the supply holds something else. */
  readonly stated: number | null;
  /** Asks for the value; `confirmed` after a person has said yes to what was refused. */
  readonly onSet: (value: number, confirmed: boolean) => Promise<Result<unknown>>;
}

/** A set-point: shows what the supply holds, takes a typed value on Enter, confirms where asked. */
export function SetField({
  name,
  unit,
  value,
  decimals,
  keyAction,
  keyShown,
  stated,
  onSet,
}: Props) {
  const id = useId();
  const input = useRef<HTMLInputElement | null>(null);
  const [typed, setTyped] = useState<string | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const [toConfirm, setToConfirm] = useState<{ value: number; trouble: Trouble } | null>(null);
  useKey(keyAction, () => {
    input.current?.focus();
    input.current?.select();
  });

  const held = formatQuantity(value, unit, decimals, { prefix: 0 });
  const leave = (): void => {
    setTyped(null);
    setWrong(null);
    setToConfirm(null);
  };

  const send = async (wanted: number, confirmed: boolean): Promise<void> => {
    const answer = await onSet(wanted, confirmed);
    if (answer.ok) {
      leave();
      input.current?.blur();
    } else if (answer.trouble.code === 'needs-confirmation') {
      setToConfirm({ value: wanted, trouble: answer.trouble });
    } else {
      setToConfirm(null);
      setWrong(`${answer.trouble.what}. ${answer.trouble.todo}`);
    }
  };

  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    if (toConfirm !== null) {
      void send(toConfirm.value, true);
      return;
    }
    const parsed = parseQuantity(typed ?? '', unit);
    if (!parsed.ok) setWrong(`${parsed.what}. ${parsed.todo}`);
    else if (parsed.value === null) setWrong('A set-point is a number.');
    else void send(parsed.value, false);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    leave();
    input.current?.blur();
  };

  const shown = typed ?? held.replace(/\u00a0.*/, '');
  const noteId = `${id}-note`;
  const note = toConfirm !== null ? `${toConfirm.trouble.what}.` : wrong;
  return (
    <form className={`set-field set-field-${unit}`} onSubmit={onSubmit}>
      <label htmlFor={id}>
        {name} <KeyCap>{keyShown}</KeyCap>
      </label>
      <div className="set-field-row">
        <input
          ref={input}
          id={id}
          inputMode="decimal"
          autoComplete="off"
          spellCheck={false}
          value={shown}
          aria-invalid={wrong !== null}
          aria-describedby={note === null ? undefined : noteId}
          onChange={(event) => {
            setTyped(event.target.value);
            setWrong(null);
            setToConfirm(null);
          }}
          onKeyDown={onKeyDown}
        />
        <span className="set-field-unit">{unit}</span>
        {typed === null &&
          stated !== null &&
          value !== null &&
          !isSame(stated, value, decimals) && (
            <button type="button" className="plain" onClick={() => void send(stated, false)}>
              Set {formatQuantity(stated, unit, null, { prefix: 0 })}
            </button>
          )}
        {typed !== null && toConfirm === null && (
          <button type="submit" className="plain">
            Set
          </button>
        )}
      </div>
      {note !== null && (
        <div className="set-field-note" id={noteId} role="alert">
          <span>{note}</span>
          {toConfirm !== null && (
            <>
              <button type="submit" className="plain strong">
                Raise to {formatQuantity(toConfirm.value, unit, decimals, { prefix: 0 })}
              </button>
              <button type="button" className="plain" onClick={leave}>
                Leave at {held}
              </button>
            </>
          )}
        </div>
      )}
    </form>
  );
}

function isSame(a: number, b: number, decimals: number): boolean {
  return Math.abs(a - b) < 0.6 * 10 ** -decimals;
}
