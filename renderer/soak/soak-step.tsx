import { type FormEvent, useState } from 'react';
import { UNIT_OF } from '../../core/units/format-reading.ts';
import { parseQuantity } from '../../core/units/parse.ts';
import { useHands } from '../probing/use-hands.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

const USUAL_MINUTES = '30';

/** Begins a soak from its step: how long, and within which draw. The verdict comes onto the step. */
export function SoakStep() {
  const isPowered = useDeskState(
    (state) => state.bench?.run?.kind === 'powered' && state.bench.supply.outputOn !== false,
  );
  const isRunning = useHands((state) => state.soak?.isRunning ?? false);
  const { ask } = useActions();
  const [text, setText] = useState({ minutes: USUAL_MINUTES, low: '', high: '' });
  const [wrong, setWrong] = useState<string | null>(null);
  if (isRunning) return null;
  if (!isPowered) return <p className="quiet">Switch the output on to begin a soak from here.</p>;

  const ampsOf = (typed: string): number | null | undefined => {
    if (typed.trim() === '') return null;
    const parsed = parseQuantity(typed, UNIT_OF.amps);
    if (parsed.ok && parsed.value !== null && parsed.value >= 0) return parsed.value;
    setWrong(parsed.ok ? 'A draw is not below zero.' : `${parsed.what}. ${parsed.todo}`);
    return undefined;
  };
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    setWrong(null);
    const minutes = Number(text.minutes.replace(',', '.'));
    if (!(minutes >= 0.05)) {
      setWrong('Type how many minutes.');
      return;
    }
    const lowA = ampsOf(text.low);
    const highA = ampsOf(text.high);
    if (lowA === undefined || highA === undefined) return;
    void ask('startSoak', { minutes, lowA, highA });
  };
  const field = (name: keyof typeof text, label: string) => (
    <label className="field">
      {label}
      <input
        className="field-input"
        autoComplete="off"
        value={text[name]}
        maxLength={20}
        onChange={(event) => setText({ ...text, [name]: event.target.value })}
      />
    </label>
  );
  return (
    <form className="soak-form" aria-label="Soak" onSubmit={onSubmit}>
      {field('minutes', 'Minutes')}
      {field('low', 'Draw from, A')}
      {field('high', 'to, A')}
      <button type="submit" className="plain strong">
        Begin soak
      </button>
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
    </form>
  );
}
