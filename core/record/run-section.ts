import type { Feed, Run } from '../job/job.ts';
import { MARK_WORDS, STAGE_WORDS } from '../stages/stage.ts';
import { formatPercent, formatQuantity, UNKNOWN } from '../units/format.ts';
import { formatDuration } from '../units/format-duration.ts';
import type { RecordRun } from './job-record.ts';
import { markLetter } from './mark-pins.ts';
import type { Fact, RunSection } from './record-content.ts';
import type { ShopClock } from './record-time.ts';
import { END_WORDS, FEED_POINT_WORDS } from './record-words.ts';
import { type RunNumbers, runNumbers } from './run-numbers.ts';
import { drawRunPlot } from './run-plot.ts';

/**
 * One run of a record: `number` of `of`, its plot, every stage with its reason, every mark.
 * `topA` is the least height of the amps axis.
 */
export function runSection(
  recordRun: RecordRun,
  number: number,
  of: number,
  topA: number,
  clock: ShopClock,
): RunSection {
  const { run, report, window } = recordRun;
  const numbers = runNumbers(recordRun);
  return {
    title: runTitle(run, number, of),
    facts: runFacts(recordRun, numbers, clock),
    sentence: sentenceOf(recordRun, numbers),
    plot: drawRunPlot({ window, report, limitA: run.limitA, setV: run.setV, topA }),
    stages: report.stages.map((stage, i) => ({
      number: i + 1,
      stage: stage.stage,
      words: STAGE_WORDS[stage.stage],
      from: formatDuration(stage.startS),
      lasted: formatDuration(stage.endS - stage.startS),
      meanAmps: numbers.amps(stage.meanA),
      meanVolts: numbers.volts(stage.meanV),
      sure: formatPercent(stage.confidence),
      reason: printed(stage.reason),
    })),
    marks: report.marks.map((mark, i) => ({
      letter: markLetter(i),
      at: formatDuration(mark.atS),
      words: MARK_WORDS[mark.mark],
      text: mark.mark === 'note' ? mark.text : printed(mark.text),
    })),
    pretend: run.pretend,
  };
}

/** The tracker writes in plain ASCII. */
function printed(text: string): string {
  return text.replaceAll('+-', '±');
}

/** `Run 1 of 3, before repair` */
export function runTitle(run: Run, number: number, of: number): string {
  const role = run.role === null ? '' : `, ${run.role} repair`;
  return `Run ${number} of ${of}${role}${run.kind === 'idle' ? ', between powered runs' : ''}`;
}

function runFacts(recordRun: RecordRun, numbers: RunNumbers, clock: ShopClock): Fact[] {
  const { run } = recordRun;
  const volts = formatQuantity(run.setV, 'V', null, { prefix: 0 });
  const limit = formatQuantity(run.limitA, 'A', null, { prefix: 0 });
  return [
    { label: 'Started', text: clock.dateTime(run.startedAt) },
    { label: 'Fed', text: `${volts} at the ${FEED_POINT_WORDS[run.feed.point]}, limit ${limit}` },
    { label: 'Connected', text: connected(run.feed) },
    { label: 'Instrument', text: run.instrument.trim() === '' ? UNKNOWN : run.instrument },
    { label: 'Reached', text: numbers.reached },
    { label: 'Held', text: heldShare(recordRun, numbers) },
    { label: 'Peak', text: numbers.peak },
    ...stepFacts(recordRun, numbers),
    { label: 'Energy', text: `${numbers.energy} in ${numbers.lasted}` },
    { label: 'Ended', text: run.end === null ? UNKNOWN : END_WORDS[run.end] },
  ];
}

/** Steps that are written out; a loop makes hundreds. */
const MOST_STEPS = 6;

/** Each step with the time it took at most, and the ripple at the level held; none where not known. */
function stepFacts({ report }: RecordRun, numbers: RunNumbers): Fact[] {
  const told = report.steps.filter((step) => step.riseS !== undefined);
  const words = told.slice(0, MOST_STEPS).map((step) => {
    const took = formatDuration(step.riseS!);
    return `${numbers.amps(step.fromA)} to ${numbers.amps(step.toA)} within ${took}`;
  });
  const more = told.length - words.length;
  const rest = more > 0 ? `; ${more} more` : '';
  const rippling = report.stages.findLast((stage) => stage.rippleA !== undefined);
  return [
    ...(words.length === 0 ? [] : [{ label: 'Steps', text: words.join('; ') + rest }]),
    ...(rippling === undefined
      ? []
      : [
          {
            label: 'Ripple',
            text: `${formatQuantity(rippling.rippleA!, 'A', null, { digits: 2 })} rms while ${STAGE_WORDS[rippling.stage].toLowerCase()}`,
          },
        ]),
  ];
}

function heldShare({ report }: RecordRun, numbers: RunNumbers): string {
  return report.reach.share === null
    ? numbers.held
    : `${numbers.held}, ${numbers.share} of its running draw`;
}

function connected(feed: Feed): string {
  const parts = [
    feed.cells ? 'cells' : 'no cells',
    feed.screen ? 'screen' : 'no screen',
    feed.drive ? 'drive' : 'no drive',
  ];
  return feed.note.trim() === '' ? parts.join(', ') : `${parts.join(', ')}; ${feed.note}`;
}

function sentenceOf({ report }: RecordRun, numbers: RunNumbers): string {
  if (report.samples === 0) return 'No readings were taken in this run.';
  const course = report.stages.map((stage) => STAGE_WORDS[stage.stage].toLowerCase()).slice(0, 12);
  const more = report.stages.length > course.length ? ' and so on' : '';
  const stages = course.length === 0 ? '' : ` Stages: ${course.join(', then ')}${more}.`;
  return `Amps and volts over ${numbers.lasted}. Peak ${numbers.peak}.${stages}`;
}
