import type { HuntWhole } from '../contract/hunt-calls.ts';
import type { PartFacts } from '../donors/donor-board.ts';
import type { JobWhole, Run } from '../job/job.ts';
import type { Picture } from '../pictures/picture.ts';
import type { JobWalk } from '../rails/job-walk.ts';
import type { JobTerms } from '../shop/job-terms.ts';
import { STAGE_IDS, STAGE_WORDS, type StageReport } from '../stages/stage.ts';
import type { TraceWindow } from '../trace/sample.ts';
import { causeRows, evidenceNotes, partNotes, type RecordEvidence } from './case-notes.ts';
import { checklistPhases, shownCautions } from './checklist-phases.ts';
import { compareRuns } from './compare-runs.ts';
import { customerPage, type Warranty } from './customer-page.ts';
import { huntSections } from './hunt-section.ts';
import { jobFacts, outcomeFacts } from './job-facts.ts';
import { partRows } from './part-rows.ts';
import { pictureGroups } from './picture-figures.ts';
import { railSection } from './rail-section.ts';
import { readingPairs } from './reading-pairs.ts';
import type { JobRecord, Paper, StageMeaning } from './record-content.ts';
import { recordFileName } from './record-file-name.ts';
import { shopClock } from './record-time.ts';
import { STAGE_MEANINGS } from './record-words.ts';
import { sharedTop } from './run-plot.ts';
import { runSection } from './run-section.ts';
import { soakLines } from './soak-lines.ts';
import { summarise } from './summary.ts';

/** A run with what the tracker said of it and its trace in about 1200 columns. */
export interface RecordRun {
  readonly run: Run;
  readonly report: StageReport;
  readonly window: TraceWindow;
}

/**
 * Turns a job and its runs (in the order to print) into the content of its record. `printedAt`
 * is UTC milliseconds; every time is written in the shop's clock, `utcOffsetMin` east of UTC.
 * Pure: the same job gives the same record. Throws nothing: what is not known is a dash.
 */
export function buildJobRecord(o: {
  readonly whole: JobWhole;
  readonly runs: readonly RecordRun[];
  /** Where its rails stand; left out when the board has no table. */
  readonly rails?: JobWalk | null;
  /** Details of its parts; left out = none told. */
  readonly partFacts?: readonly PartFacts[];
  /** What earlier outcomes said; left out = not printed. */
  readonly evidence?: RecordEvidence | null;
  /** Its pictures, by the time they were taken; left out = none. */
  readonly pictures?: readonly Picture[];
  /** Its hunts for a short, oldest first; left out = none. */
  readonly hunts?: readonly HuntWhole[];
  /** Left out = none was given. */
  readonly warranty?: Warranty | null;
  /** What was agreed with whom; left out = nothing. */
  readonly terms?: JobTerms | null;
  readonly printedAt: number;
  readonly utcOffsetMin: number;
  readonly paper: Paper;
}): JobRecord {
  const { whole, runs, paper } = o;
  const { job } = whole;
  const clock = shopClock(o.utcOffsetMin);
  const printed = `${clock.dateTime(o.printedAt)} (${clock.zone})`;
  const partFacts = o.partFacts ?? [];
  const groups = pictureGroups(o.pictures ?? [], whole, clock);
  const topA = sharedTop(runs.map((run) => run.window));
  return {
    paper,
    title: `Job ${job.number}`,
    board: job.boardModel ?? 'Board unknown',
    serial: job.serialNumber,
    footer: `Job ${job.number} · printed ${printed}`,
    fileName: recordFileName(job),
    printed,
    pretend: pretendSentence(runs),
    customer: customerPage({
      whole,
      runs,
      partFacts,
      groups,
      warranty: o.warranty ?? null,
      terms: o.terms ?? null,
      clock,
    }),
    summary: summarise(whole, runs, clock),
    facts: jobFacts(job, clock),
    outcome: outcomeFacts(job, clock),
    comparison: compareRuns(runs),
    runs: runs.map((run, i) => runSection(run, i + 1, runs.length, topA, clock)),
    rails: railSection(o.rails ?? null, clock),
    readings: readingPairs(whole, clock),
    parts: partRows(whole.parts, clock),
    partNotes: partNotes(whole.parts, partFacts),
    evidence: evidenceNotes(o.evidence ?? null),
    causes: causeRows(o.evidence ?? null),
    hunts: huntSections(o.hunts ?? [], whole.runs, clock),
    pictures: groups,
    soak: soakLines(whole.items, clock),
    cautions: shownCautions(whole.items),
    checklist: checklistPhases(whole.items, clock),
    stagesUsed: stagesUsed(runs),
  };
}

function pretendSentence(runs: readonly RecordRun[]): string | null {
  const pretend = runs.filter((run) => run.run.pretend).length;
  if (pretend === 0) return null;
  return pretend === runs.length
    ? 'Made on the pretend bench. No real board was powered or measured.'
    : `${pretend} of the ${runs.length} runs below were made on the pretend bench, not on a real board. Each says so.`;
}

function stagesUsed(runs: readonly RecordRun[]): StageMeaning[] {
  const used = new Set(runs.flatMap((run) => run.report.stages.map((stage) => stage.stage)));
  return STAGE_IDS.filter((id) => used.has(id)).map((stage) => ({
    stage,
    words: STAGE_WORDS[stage],
    meaning: STAGE_MEANINGS[stage],
  }));
}
