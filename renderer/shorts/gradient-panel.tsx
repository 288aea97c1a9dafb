import { useState } from 'react';
import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { AddPoint } from './add-point.tsx';
import { GradientFigure } from './gradient-figure.tsx';
import { GradientTable } from './gradient-table.tsx';
import { columnAt, nextPointId } from './hunt-words.ts';
import { PointPanel } from './point-panel.tsx';
import { PointsOnPicture } from './points-on-picture.tsx';
import { usePointReading } from './use-point-reading.ts';

/** Millivolts along the rail while a known current flows, and where they say that it goes to ground. */
export function GradientPanel({ whole }: { whole: HuntWhole }) {
  const { hunt, found } = whole;
  const [chosen, setChosen] = useState<string | null>(null);
  const reading = usePointReading();
  const { ask, say } = useActions();
  const column = columnAt(reading.amps ?? 0, found.columns.firstA);
  const usual = nextPointId(found.columns.points, column) ?? hunt.points[0]?.id ?? null;
  const aimId = hunt.points.some(({ id }) => id === chosen) ? chosen : usual;
  const { gradient } = found;
  const conclude = async (): Promise<void> => {
    if ((await ask('concludeHunt', { huntId: hunt.id })) !== null) say('Kept as a finding.');
  };
  return (
    <>
      <PointPanel
        key={aimId ?? 'none'}
        whole={whole}
        aimId={aimId}
        reading={reading}
        onDone={() => setChosen(null)}
      />
      <section className="gradient" aria-label="Along the rail">
        <h2>Millivolts along {hunt.rail}</h2>
        {gradient === null ? (
          <p className="gradient-verdict" role="status">
            {found.columns.firstA === null
              ? 'Read every point once without current, then hold and read each while current flows: it falls towards the short.'
              : 'One point has nothing to be compared with: read more of them at the same current.'}
          </p>
        ) : (
          <>
            <p className="gradient-verdict" data-verdict={gradient.verdict} role="status">
              <VerdictWord verdict={gradient.verdict} /> {gradient.text}
            </p>
            <GradientFigure whole={whole} gradient={gradient} />
            {gradient.neededA !== null && (
              <p className="quiet">
                {formatQuantity(gradient.neededA, 'A', null, { digits: 2 })} would part the lowest
                two for this meter.
              </p>
            )}
            {gradient.notes.map((note) => (
              <p key={note} className="quiet">
                {note}
              </p>
            ))}
          </>
        )}
        <GradientTable whole={whole} aimId={aimId} onAim={setChosen} />
        {gradient !== null && (
          <div className="conclude">
            <button type="button" className="plain" onClick={() => void conclude()}>
              {hunt.finding === null ? 'Keep as a finding' : 'Keep again, as it stands now'}
            </button>
            {hunt.finding !== null && hunt.concludedAt !== null && (
              <span className="quiet">
                Kept at {timeWords(hunt.concludedAt)}: {hunt.finding.claim}
              </span>
            )}
          </div>
        )}
      </section>
      <AddPoint huntId={hunt.id} />
      <PointsOnPicture whole={whole} aimId={aimId} onAim={setChosen} />
    </>
  );
}

const WORDS = { nearest: 'Nearest', tie: 'A tie', 'cannot-tell': 'Cannot be told' } as const;

function VerdictWord({ verdict }: { verdict: keyof typeof WORDS }) {
  return (
    <strong className="gradient-word">
      <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden="true">
        <path
          d={
            verdict === 'nearest'
              ? 'M2 4L10 15L18 6M10 15v3'
              : verdict === 'tie'
                ? 'M2 4L8 14H18'
                : 'M2 10q4-8 8 0t8 0'
          }
        />
      </svg>
      {WORDS[verdict]}
    </strong>
  );
}
