import type { JobLine } from '../../core/job/job.ts';
import { STAGE_WORDS } from '../../core/stages/stage.ts';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { dayWords } from '../parts/time-words.ts';
import { stateWords, VERDICT_WORDS } from './job-words.ts';

interface Props {
  readonly lines: readonly JobLine[];
  readonly onOpen: (jobId: string) => void;
  readonly openId?: string | null;
}

/** Jobs as lines of a book: number, board, symptom, how far its last run got. */
export function JobLines({ lines, onOpen, openId = null }: Props) {
  return (
    <ol className="job-lines">
      {lines.map((line) => (
        <li key={line.id}>
          <JobLineButton line={line} isOpen={line.id === openId} onOpen={() => onOpen(line.id)} />
        </li>
      ))}
    </ol>
  );
}

interface LineProps {
  readonly line: JobLine;
  readonly isOpen: boolean;
  readonly onOpen: () => void;
}

/** One job as a line that opens it. */
export function JobLineButton({ line, isOpen, onOpen }: LineProps) {
  return (
    <button
      type="button"
      className="job-line"
      aria-current={isOpen ? 'true' : undefined}
      onClick={onOpen}
    >
      <span className="job-number">{line.number}</span>
      <span className="job-board">{line.boardModel ?? 'Board unknown'}</span>
      <span className="job-serial quiet">{line.serialNumber}</span>
      <span className="job-symptom">{line.symptom}</span>
      <span className="job-state quiet">
        {line.verdict === null ? stateWords(line) : VERDICT_WORDS[line.verdict]}
        {line.isComeback ? ', comeback' : ''}, {dayWords(line.updatedAt)}
      </span>
      <span className="job-reach">
        {line.lastReach !== null && (
          <>
            <StageGlyph stage={line.lastReach} width={24} /> {STAGE_WORDS[line.lastReach]}
          </>
        )}
      </span>
    </button>
  );
}
