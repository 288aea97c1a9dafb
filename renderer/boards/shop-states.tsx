import { type FormEvent, useState } from 'react';
import type { ShopStates } from '../../core/contract/board-calls.ts';

interface Props {
  readonly states: ShopStates;
  readonly onSave: (states: readonly string[]) => void;
}

/** The shop's own names for the states of a board: what rails are up in, and what a board is said to be in. */
export function ShopStatesForm({ states, onSave }: Props) {
  const [text, setText] = useState<string | null>(null);
  const { defined, used } = states;
  const shown = (defined.length > 0 ? defined : used).join(', ');
  const names = (text ?? shown).split(/[,;\n]/).map((name) => name.trim());
  const kept = names.filter((name) => name !== '');
  const lost = used.filter((name) => !kept.some((one) => isSame(one, name)));
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    onSave(kept);
    setText(null);
  };
  return (
    <form className="shop-states" aria-label="States of the shop" onSubmit={onSubmit}>
      <label className="field">
        States a board can be in
        <input
          className="field-input"
          autoComplete="off"
          maxLength={400}
          placeholder="off, sleep, on"
          value={text ?? shown}
          onChange={(event) => setText(event.target.value)}
        />
      </label>
      <p className="quiet">
        The shop's own words, commas between. Rails name those they are up in; none means whenever
        they are fed.
      </p>
      {text !== null && lost.length > 0 && kept.length > 0 && (
        <p className="quiet">Boards still use {lost.join(', ')}; they keep it.</p>
      )}
      <button
        type="submit"
        className="plain"
        disabled={text === null && (defined.length > 0 || kept.length === 0)}
      >
        {defined.length === 0 && text === null && kept.length > 0
          ? 'Keep these states'
          : 'Save states'}
      </button>
    </form>
  );
}

const isSame = (a: string, b: string) => a.toLowerCase() === b.toLowerCase();
