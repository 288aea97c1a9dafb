import type { ReactNode } from 'react';
import type { Run } from '../../core/job/job.ts';
import { STAGE_WORDS } from '../../core/stages/stage.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { feedWords } from '../parts/feed-words.ts';
import { RoleChoice } from '../parts/role-choice.tsx';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { END_WORDS } from './job-words.ts';

/** A run in a list: when, how far it got, what it drew, and what can be done with it. */
export function RunLine({ run, children }: { run: Run; children?: ReactNode }) {
  const { replay } = useActions();
  const reach = run.reach?.stage ?? null;
  const amps = (value: number | null | undefined) =>
    formatQuantity(value ?? null, 'A', null, { digits: 3 });
  return (
    <li className="run-line" data-testid="run-line" data-ref={run.id}>
      <span className="run-reach">
        {reach === null ? (
          'No stage'
        ) : (
          <>
            <StageGlyph stage={reach} width={36} /> <strong>{STAGE_WORDS[reach]}</strong>
          </>
        )}
      </span>
      <span>
        {dayWords(run.startedAt)}, {timeWords(run.startedAt)}, {formatDuration(run.durationS)}
        <span className="quiet">
          {run.end === null ? ', recording' : `, ${END_WORDS[run.end]}`}
          {run.pretend ? ', pretend bench' : ''}
        </span>
      </span>
      <span className="run-numbers">
        held {amps(run.reach?.heldA)}, peak {amps(run.peakA)}
        <span className="quiet">
          {' '}
          at {formatQuantity(run.setV, 'V', null, { prefix: 0 })}, limit{' '}
          {formatQuantity(run.limitA, 'A', null, { prefix: 0 })}, {feedWords(run.feed)}
        </span>
      </span>
      <span className="run-keys">
        <RoleChoice run={run} />
        <button type="button" className="plain" onClick={() => replay(run.id)}>
          Replay
        </button>
        {children}
      </span>
    </li>
  );
}
