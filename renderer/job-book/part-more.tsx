import { useEffect, useState } from 'react';
import type { PartDetails, PartFacts } from '../../core/donors/donor-board.ts';
import type { Part } from '../../core/job/job.ts';
import { EquivalenceLines } from '../donors/equivalence-lines.tsx';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly part: Part;
  readonly facts: PartFacts;
}

const ROLES: readonly (readonly [PartDetails['role'], string])[] = [
  ['other', 'not told'],
  ['bulk', 'one of a bulk bank'],
  ['decoupling', 'decoupling'],
  ['regulator-output', "a regulator's output"],
  ['feedback', 'feedback'],
  ['timing', 'timing'],
  ['sensing', 'sensing'],
];
const KNOWN: readonly (readonly [PartDetails['knownFrom'], string])[] = [
  ['unknown', 'nobody knows'],
  ['marking', 'printed on it'],
  ['label', "new stock's label"],
  ['same-place', 'same place, same board model'],
  ['schematic', 'the schematic'],
];

/** What is told of a part beside its line: what it does, how it is known, whether it is an equal. */
export function PartMore({ part, facts }: Props) {
  const { ask } = useActions();
  const [details, setDetails] = useState(facts.details);
  useEffect(() => setDetails(facts.details), [facts.details]);
  const keep = (changed: Partial<PartDetails>): void => {
    const next = { ...details, ...changed };
    setDetails(next);
    void ask('keepPartDetails', { partId: part.id, details: next });
  };
  const name = part.designator;
  return (
    <div className="part-more">
      {facts.equivalence !== null && <EquivalenceLines equivalence={facts.equivalence} />}
      <details>
        <summary>
          More of it<span className="heard-only"> about {name}</span>
        </summary>
        <div className="part-more-fields">
          <Pick
            label="What it does"
            value={details.role}
            onPick={(role) => keep({ role: role as PartDetails['role'] })}
          >
            {ROLES.map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </Pick>
          <Pick
            label="The schematic calls it critical"
            value={String(details.critical)}
            onPick={(said) => keep({ critical: said === 'null' ? null : said === 'true' })}
          >
            <option value="null">not known</option>
            <option value="true">yes</option>
            <option value="false">no</option>
          </Pick>
          <Pick
            label="Its figures are known from"
            value={details.knownFrom}
            onPick={(from) => keep({ knownFrom: from as PartDetails['knownFrom'] })}
          >
            {KNOWN.map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </Pick>
          <label className="field">
            Volts across it
            <input
              className="field-input"
              type="number"
              min={0}
              max={1000}
              step="any"
              value={details.railV ?? ''}
              onChange={(event) => {
                const { value } = event.target;
                setDetails({ ...details, railV: value === '' ? null : Number(value) });
              }}
              onBlur={() => keep({})}
            />
          </label>
        </div>
      </details>
    </div>
  );
}
