import { useState } from 'react';
import type { RailWalkAnswer } from '../../core/contract/board-calls.ts';
import type { BoardModel } from '../../core/rails/board-model.ts';
import type { JobWalk } from '../../core/rails/job-walk.ts';
import { JobReadings } from '../job-book/job-readings.tsx';
import { KeyCap } from '../parts/key-cap.tsx';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';
import { MeasurePanel } from './measure-panel.tsx';
import { MeterFactsForm } from './meter-facts-form.tsx';
import { NextBest } from './next-best.tsx';
import { aimAt, aimOf, type ProbeAim } from './probe-aim.ts';
import { RailLines } from './rail-lines.tsx';
import { RailTree } from './rail-tree.tsx';
import { SuspectsList } from './suspects-list.tsx';
import { useProbe } from './use-probe.ts';

interface Props {
  readonly jobId: string;
  readonly answer: RailWalkAnswer;
  readonly board: BoardModel;
  readonly job: JobWalk;
  readonly state: string | null;
  readonly onState: (state: string | null) => void;
  readonly onHunt: () => void;
}

/** The rails of a job whose board is known: tree and verdicts beside measuring and suspects. */
export function JobRails({ jobId, answer, board, job, state, onState, onHunt }: Props) {
  const [chosen, setChosen] = useState<ProbeAim | null>(null);
  const [open, setOpen] = useState<string | null>(null);
  const probe = useProbe(jobId, state, job.rails);
  const { show } = useActions();
  const aim = chosen ?? usualAim(board, job);
  return (
    <main className="rails">
      <div className="rails-side">
        <header className="rails-head">
          <h1>Rails of {board.name}</h1>
          {answer.states.length > 0 && (
            <Pick label="Board is in" value={state ?? ''} onPick={(name) => onState(name || null)}>
              <option value="">No state named</option>
              {answer.states.map((name) => (
                <option key={name}>{name}</option>
              ))}
            </Pick>
          )}
          <button type="button" className="plain" onClick={onHunt}>
            Hunt a short <KeyCap>Z</KeyCap>
          </button>
          <button type="button" className="plain" onClick={() => show('boards')}>
            Change its table
          </button>
        </header>
        <RailTree
          board={board}
          places={answer.places}
          lines={job.rails}
          picked={aim.rail}
          onPick={(rail) => {
            setChosen({ rail, what: 'volts', other: null });
            setOpen(rail);
          }}
        />
        <p className="rails-count">{countWords(job)}</p>
        <SuspectsList
          walk={job.walk}
          title={job.walkBefore === null ? 'Suspects' : 'Suspects since the part was changed'}
        />
        {job.walkBefore !== null && (
          <details>
            <summary>Suspects before the part was changed</summary>
            <SuspectsList walk={job.walkBefore} title="Suspects before the part was changed" />
          </details>
        )}
        {job.again.length > 0 && (
          <p className="again-line">
            A part was changed: {job.again.length}{' '}
            {job.again.length === 1 ? 'point is' : 'points are'} to be measured again, as before.
          </p>
        )}
        <RailLines
          rails={job.rails}
          again={job.again}
          goodIds={answer.goodIds}
          open={open}
          probe={probe}
          onOpen={setOpen}
          onAim={setChosen}
        />
        {answer.cannotReach.length > 0 && (
          <section aria-label="Cannot be reached">
            <h3>Cannot be reached</h3>
            <ul>
              {answer.cannotReach.map((key) => (
                <li key={key} className="unreached">
                  {sayKey(key)}
                  <button
                    type="button"
                    className="in-text"
                    onClick={() => void probe.cannotReach(aimFromKey(key), false)}
                  >
                    it can after all
                  </button>
                </li>
              ))}
            </ul>
          </section>
        )}
        {answer.alone.length > 0 && (
          <section className="rails-alone-readings">
            <p className="quiet">Readings of this job that stand on no rail of the table:</p>
            <JobReadings readings={answer.alone} items={[]} />
          </section>
        )}
      </div>
      <div className="rails-side rails-work">
        <MeasurePanel
          board={board}
          aim={aim}
          probe={probe}
          onAim={setChosen}
          onDone={() => setChosen(null)}
        />
        <NextBest walk={job.walk} aim={aim} onAim={setChosen} />
        <MeterFactsForm meter={answer.meter} />
      </div>
    </main>
  );
}

/** After a part was changed the same points come first, else what tells most, else the input. */
function usualAim(board: BoardModel, job: JobWalk): ProbeAim {
  const again = job.again[0];
  if (again !== undefined) return aimOf(again.reading);
  const next = job.walk.next[0];
  if (next !== undefined) return aimAt(next.measurement);
  return { rail: board.rails[0]?.name ?? '', what: 'volts', other: null };
}

function countWords({ taken, advised }: JobWalk): string {
  const so = `${taken} ${taken === 1 ? 'measurement' : 'measurements'}`;
  if (advised === null)
    return taken === 0 ? 'Nothing measured yet; any order works.' : `${so} so far.`;
  return `${so}; the advice alone would have taken ${advised.count} to ${advised.fault}.`;
}

function aimFromKey(key: string): ProbeAim {
  const [what = 'volts', rail = '', other] = key.split(':');
  return { what: what as ProbeAim['what'], rail, other: other ?? null };
}

function sayKey(key: string): string {
  const { what, rail, other } = aimFromKey(key);
  return `${what} at ${rail}${other === null ? '' : ` to ${other}`}`;
}
