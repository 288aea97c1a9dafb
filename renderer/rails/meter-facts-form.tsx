import { type FormEvent, useState } from 'react';
import type { MeterFacts } from '../../core/contract/board-calls.ts';
import { parseQuantity } from '../../core/units/parse.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

const text = (value: number | null) => (value === null ? '' : String(value));

/** Leads and accuracy of the meter: what verdicts allow for. */
export function MeterFactsForm({ meter }: { meter: MeterFacts }) {
  const { ask, say } = useActions();
  const [wires, setWires] = useState(meter.wires);
  const [typed, setTyped] = useState({
    leadOhm: text(meter.leadOhm),
    voltsPercent: text(meter.voltsPercent),
    ohmsPercent: text(meter.ohmsPercent),
  });
  const [wrong, setWrong] = useState<string | null>(null);
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    let bad: string | null = null;
    const read = (name: keyof typeof typed, most: number): number | null => {
      if (typed[name].trim() === '') return null;
      const parsed = parseQuantity(typed[name].replace('%', ''), 'Ω');
      const value = parsed.ok ? parsed.value : null;
      if (value !== null && value >= 0 && value <= most) return value;
      bad ??= `"${typed[name]}" is no number from 0 to ${most}. Type one, or leave it empty.`;
      return null;
    };
    const facts = {
      wires,
      leadOhm: read('leadOhm', 10),
      voltsPercent: read('voltsPercent', 20),
      ohmsPercent: read('ohmsPercent', 20),
    };
    setWrong(bad);
    if (bad !== null) return;
    if ((await ask('saveMeterFacts', { facts })) !== null) say('Kept for readings from now on.');
  };
  const field = (name: keyof typeof typed, label: string) => (
    <label className="field">
      {label}
      <input
        className="field-input"
        inputMode="decimal"
        autoComplete="off"
        maxLength={20}
        value={typed[name]}
        onChange={(event) => setTyped({ ...typed, [name]: event.target.value })}
      />
    </label>
  );
  return (
    <details className="meter-facts">
      <summary>Leads and accuracy of the meter</summary>
      <form aria-label="Meter" onSubmit={(event) => void onSubmit(event)}>
        <Pick
          className="field"
          label="Ohms with"
          value={String(wires)}
          onPick={(picked) => setWires(picked === '4' ? 4 : 2)}
        >
          <option value="2">Two wires</option>
          <option value="4">Four wires</option>
        </Pick>
        {field('leadOhm', 'Leads, Ω (tips together; 0 = nulled)')}
        {field('voltsPercent', 'Volts off by, % of reading')}
        {field('ohmsPercent', 'Ohms off by, % of reading')}
        <button type="submit" className="plain">
          Keep for new readings
        </button>
        {wrong !== null && (
          <p role="alert" className="form-wrong">
            {wrong}
          </p>
        )}
      </form>
    </details>
  );
}
