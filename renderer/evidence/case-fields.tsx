import { useEffect, useState } from 'react';
import type { CaseDetails } from '../../core/cases/case-details.ts';
import { causeLines } from '../../core/cases/cause-tree.ts';
import type { Cause } from '../../core/evidence/cause-table.ts';
import { missingProof, type Proof, proofOf } from '../../core/evidence/past-case.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly details: CaseDetails;
  readonly onChange: (details: CaseDetails) => void;
}

export const NO_CASE: CaseDetails = {
  causeKey: null,
  part: '',
  rail: '',
  gaveAway: '',
  changed: false,
  readingCameBack: false,
  boardWoke: false,
};

const PROOFS: Readonly<Record<Proof, string>> = {
  proved: 'Proved: later jobs learn from it.',
  guessed: 'Guessed: kept and shown beside, not counted.',
  unsolved: 'Not solved: kept and shown beside, not counted.',
};
const STEPS = [
  ['changed', 'The part was removed or replaced, or the bench put right'],
  ['readingCameBack', 'The reading came back at the same point'],
  ['boardWoke', 'The board woke'],
] as const;
const LINES = [
  ['part', 'Which part'],
  ['rail', 'On which rail'],
  ['gaveAway', 'What gave it away'],
] as const;

/** The cause in the shop's tree and how it was proved: what later jobs learn from. */
export function CaseFields({ details, onChange }: Props) {
  const { ask } = useActions();
  const [causes, setCauses] = useState<readonly Cause[]>([]);
  const [own, setOwn] = useState('');
  useEffect(() => {
    void ask('listCauses', {}).then((found) => setCauses(found ?? []));
  }, [ask]);
  const add = async (): Promise<void> => {
    const had = new Set(causes.map(({ key }) => key));
    const next = await ask('saveCause', {
      key: null,
      text: own,
      parent: details.causeKey,
      check: '',
      weight: 1,
    });
    if (next === null) return;
    setCauses(next);
    setOwn('');
    const added = next.find(({ key }) => !had.has(key));
    if (added !== undefined) onChange({ ...details, causeKey: added.key });
  };
  const missing = missingProof(details.causeKey, details);
  const offered = causes.filter(({ key, isRetired }) => !isRetired || key === details.causeKey);
  return (
    <fieldset className="case-fields">
      <legend>What it was, and how that is known</legend>
      <Pick
        label="Cause"
        value={details.causeKey ?? ''}
        onPick={(key) => onChange({ ...details, causeKey: key === '' ? null : key })}
      >
        <option value="">nobody knows</option>
        {causeLines(offered).map(({ cause, depth }) => (
          <option key={cause.key} value={cause.key}>
            {'\u2003'.repeat(depth) + cause.text}
          </option>
        ))}
      </Pick>
      <div className="own-cause">
        <label className="field">
          A cause that is not listed, under the one chosen
          <input
            className="field-input"
            maxLength={200}
            value={own}
            onChange={(event) => setOwn(event.target.value)}
          />
        </label>
        <button
          type="button"
          className="plain"
          disabled={own.trim().length < 2}
          onClick={() => void add()}
        >
          Add to the causes
        </button>
      </div>
      {LINES.map(([name, words]) => (
        <label key={name} className="field">
          {words}
          <input
            className="field-input"
            maxLength={200}
            value={details[name]}
            onChange={(event) => onChange({ ...details, [name]: event.target.value })}
          />
        </label>
      ))}
      {STEPS.map(([name, words]) => (
        <label key={name} className="proof-step">
          <input
            type="checkbox"
            checked={details[name]}
            onChange={(event) => onChange({ ...details, [name]: event.target.checked })}
          />
          {words}
        </label>
      ))}
      <output className="quiet">
        {PROOFS[proofOf(details.causeKey, details)]}
        {missing.length > 0 && ` Missing for a proof: ${missing.join('; ')}.`}
      </output>
    </fieldset>
  );
}
