import type { Run } from '../../core/job/job.ts';
import { MARK_WORDS, STAGE_WORDS, type StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatPercent, formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { END_WORDS } from '../job-book/job-words.ts';
import { feedWords } from '../parts/feed-words.ts';
import { identityWords } from '../parts/identity-words.ts';
import { RoleChoice } from '../parts/role-choice.tsx';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { clockWords } from '../trace/time-ticks.ts';

interface Props {
  readonly run: Run;
  readonly report: StageReport;
  readonly onGo: (toS: number) => void;
  readonly children?: React.ReactNode;
}

/** The run in words: how far it got, its stages and marks; each one moves the head there. */
export function ReplayFacts({ run, report, onGo, children }: Props) {
  const { replay } = useActions();
  const { reach } = report;
  const three = { digits: 3 } as const;
  return (
    <section className="replay-facts" aria-label="This run">
      <div className="part-head">
        <h2>
          {dayWords(run.startedAt)}, {timeWords(run.startedAt)}
        </h2>
        <button type="button" className="plain" onClick={() => replay(null)}>
          Other run
        </button>
      </div>
      <RoleChoice run={run} />
      <dl className="facts">
        <Fact name="Reached">
          <StageGlyph stage={reach.stage} width={24} /> {STAGE_WORDS[reach.stage]}, held{' '}
          {formatQuantity(reach.heldA, 'A', null, three)}
          {reach.share !== null && `, ${formatPercent(reach.share)} of running`}
        </Fact>
        <Fact name="Peak">{formatQuantity(run.peakA, 'A', null, three)}</Fact>
        <Fact name="Energy">{formatQuantity(run.energyWh, 'Wh', null, three)}</Fact>
        <Fact name="Feed">
          {formatQuantity(run.setV, 'V', null, { prefix: 0 })}, limit{' '}
          {formatQuantity(run.limitA, 'A', null, { prefix: 0 })}, {feedWords(run.feed)}
        </Fact>
        <Fact name="Length">{formatDuration(run.durationS)}</Fact>
        <Fact name="Ended">{run.end === null ? 'still recording' : END_WORDS[run.end]}</Fact>
        <Fact name="Supply">
          {identityWords(run.instrument)}
          {run.pretend ? ' (pretend bench)' : ''}
        </Fact>
      </dl>
      {children}
      <h3>Stages and marks</h3>
      <ol className="moments">
        {moments(report).map((moment) => (
          <li key={moment.key}>
            <button type="button" className="moment" onClick={() => onGo(moment.atS)}>
              <span className="moment-time">{clockWords(moment.atS * TICKS_PER_SECOND, 1)}</span>
              {moment.stage !== null && <StageGlyph stage={moment.stage} width={24} />}
              <span>{moment.words}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

function Fact({ name, children }: { name: string; children: React.ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function moments(report: StageReport) {
  const stages = report.stages.map((stage) => ({
    key: `stage${stage.startS}`,
    atS: stage.startS,
    stage: stage.stage,
    words: STAGE_WORDS[stage.stage],
  }));
  const marks = report.marks.map((mark) => ({
    key: `${mark.mark}${mark.atS}${mark.text}`,
    atS: mark.atS,
    stage: null,
    words: mark.text === '' ? MARK_WORDS[mark.mark] : `${MARK_WORDS[mark.mark]}: ${mark.text}`,
  }));
  return [...stages, ...marks].sort((a, b) => a.atS - b.atS);
}
