import { useEffect, useMemo, useState } from 'react';
import type { ComparedRunFacts } from '../../core/contract/match-calls.ts';
import { type AlignBy, MOST_COMPARED } from '../../core/match/compare-runs.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { AddRun } from './add-run.tsx';
import { AlignChoice } from './align-choice.tsx';
import { commonTime } from './common-time.ts';
import { CompareFigure } from './compare-figure.tsx';
import { ComparedRun } from './compared-run.tsx';
import { RUN_LETTERS } from './run-letters.ts';

const NO_RUNS: readonly ComparedRunFacts[] = [];

/** Up to six runs over one another, aligned at one moment, and how they differ in words. */
export function CompareView() {
  const ids = useDeskState((state) => state.compareRunIds);
  const { ask, compare } = useActions();
  const [alignBy, setAlignBy] = useState<AlignBy>({ by: 'output-on' });
  const [runs, setRuns] = useState<readonly ComparedRunFacts[] | null>(null);
  useEffect(() => {
    if (ids.length === 0) {
      setRuns(NO_RUNS);
      return;
    }
    let isWanted = true;
    void ask('compareRuns', { ids: [...ids], alignBy }).then((answer) => {
      if (isWanted) setRuns(answer ?? NO_RUNS);
    });
    return () => {
      isWanted = false;
    };
  }, [ids, alignBy, ask]);
  const time = useMemo(
    () =>
      commonTime(
        (runs ?? NO_RUNS).map(({ run, zeroS }) => ({
          id: run.id,
          zeroS,
          durationS: run.durationS,
        })),
      ),
    [runs],
  );
  if (runs === null) return <main className="compare">Reading the runs…</main>;
  const without = (id: string) => compare(ids.filter((one) => one !== id));
  return (
    <main className="compare">
      <header className="compare-head">
        <h1>Compare runs</h1>
        {runs.length > 0 && (
          <AlignChoice alignBy={alignBy} steps={runs[0]!.report.steps} onAlign={setAlignBy} />
        )}
        {ids.length < MOST_COMPARED && (
          <AddRun taken={ids} onAdd={(id) => compare([...ids, id])} isFirst={ids.length === 0} />
        )}
      </header>
      {runs.length === 0 ? (
        <p className="quiet">
          Choose a run to begin with, then add up to five more. The first is what the others are
          held against.
        </p>
      ) : (
        <>
          <CompareFigure time={time} words={sentence(runs)} />
          <ol className="compared-runs" aria-label="Runs and how they differ from the first">
            {runs.map((one, i) => (
              <ComparedRun
                key={one.run.id}
                at={i}
                facts={one}
                onRemove={() => without(one.run.id)}
              />
            ))}
          </ol>
        </>
      )}
    </main>
  );
}

function sentence(runs: readonly ComparedRunFacts[]): string {
  const differ = runs.slice(1).map(({ lines }, i) => {
    const said = lines.length === 0 ? 'does the same as run A' : lines.join('; ');
    return `Run ${RUN_LETTERS[i + 1]}: ${said}.`;
  });
  return [`${runs.length} ${runs.length === 1 ? 'run' : 'runs'}.`, ...differ].join(' ');
}
