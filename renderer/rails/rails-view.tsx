import { useState } from 'react';
import { useKey } from '../keys/use-key.ts';
import { TroubleWords } from '../parts/trouble-words.tsx';
import { HuntView } from '../shorts/hunt-view.tsx';
import { useInjection } from '../shorts/injection-store.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { JobRails } from './job-rails.tsx';
import { NoBoard } from './no-board.tsx';
import { keepSaidState, saidState } from './said-states.ts';
import { useRailWalk } from './use-rail-walk.ts';

/** Measuring along the rails of the job on the bench, or of the one that is open in the job book. */
export function RailsView() {
  const benchJob = useDeskState((state) => state.bench?.jobId ?? null);
  const openJob = useDeskState((state) => state.openJobId);
  const { show } = useActions();
  const jobId = benchJob ?? openJob;
  if (jobId !== null) return <RailsOf key={jobId} jobId={jobId} />;
  return (
    <main className="rails-alone">
      <section className="no-board">
        <h1>No job is open</h1>
        <p>Put a job on the bench, or open one in the job book: its rails are walked here.</p>
        <div className="form-keys">
          <button type="button" className="plain strong" onClick={() => show('jobs')}>
            Job book
          </button>
          <button type="button" className="plain" onClick={() => show('boards')}>
            Boards
          </button>
        </div>
      </section>
    </main>
  );
}

function RailsOf({ jobId }: { jobId: string }) {
  const [state, setState] = useState<string | null>(() => saidState(jobId));
  // Whoever comes back while the mode is on wants the key to let go of, not the rails.
  const isInjecting = useInjection(({ phase }) => phase !== 'off');
  const [isHunting, setHunting] = useState(isInjecting);
  const { answer, trouble } = useRailWalk(jobId, state);
  useKey('shortHunt', () => setHunting(!isHunting));
  const hunt = () => setHunting(true);
  if (trouble !== null) {
    return (
      <main className="rails-alone">
        <p className="form-wrong" role="alert">
          <TroubleWords trouble={trouble} />
        </p>
      </main>
    );
  }
  if (isHunting) {
    return <HuntView jobId={jobId} answer={answer} onBack={() => setHunting(false)} />;
  }
  if (answer === null) {
    return (
      <main className="rails-alone">
        <p className="quiet">Reading the rails…</p>
      </main>
    );
  }
  if (answer.board === null || answer.job === null) {
    return (
      <main className="rails-alone">
        <NoBoard answer={answer} jobId={jobId} onHunt={hunt} />
      </main>
    );
  }
  return (
    <JobRails
      jobId={jobId}
      answer={answer}
      board={answer.board}
      job={answer.job}
      state={state}
      onState={(name) => {
        keepSaidState(jobId, name);
        setState(name);
      }}
      onHunt={hunt}
    />
  );
}
