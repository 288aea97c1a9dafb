import type { JobWhole, Part } from '../job/job.ts';
import { isolate } from './isolate.ts';
import type { RecordRun } from './job-record.ts';
import { placeKey, sortedReadings, verdictOf } from './reading-rows.ts';
import type { ShopClock } from './record-time.ts';
import { ENDING_WORDS } from './record-words.ts';
import { runNumbers } from './run-numbers.ts';

/** The job for its owner: a few plain sentences, each from what was recorded and nothing else. */
export function summarise(whole: JobWhole, runs: readonly RecordRun[], clock: ShopClock): string[] {
  const { job } = whole;
  const board =
    job.boardModel === null ? 'An unidentified board' : `The ${isolate(job.boardModel)} board`;
  const sentences = [`${board} came in on ${clock.date(job.createdAt)}.`];
  sentences.push(
    job.outcome === null ? 'The work is not finished.' : ENDING_WORDS[job.outcome.verdict],
  );
  sentences.push(...drawSentences(runs));
  const parts = partSentence(whole.parts);
  if (parts !== null) sentences.push(parts);
  const readings = readingSentence(whole);
  if (readings !== null) sentences.push(readings);
  const skipped = whole.items.filter((item) => item.state === 'skipped').length;
  if (skipped > 0) {
    sentences.push(
      skipped === 1
        ? 'One checklist step was skipped; the reason is in this record.'
        : `${skipped} checklist steps were skipped; the reasons are in this record.`,
    );
  }
  return sentences;
}

function drawSentences(runs: readonly RecordRun[]): string[] {
  const before = runs.find((run) => run.run.role === 'before');
  const after = runs.findLast((run) => run.run.role === 'after');
  const sentences: string[] = [];
  if (before !== undefined) {
    sentences.push(`Before the repair ${drawOf(before)}.`);
  }
  if (after !== undefined) {
    sentences.push(`After the repair ${drawOf(after)}.`);
  }
  if (before === undefined && after === undefined && runs.length === 0) {
    sentences.push('It has not been powered on the bench.');
  }
  return sentences;
}

/** What a run showed, as a clause; never more than its stages say. */
function drawOf(run: RecordRun): string {
  const { reach } = run.report;
  const numbers = runNumbers(run);
  const most = reach.heldA === null ? '' : `; the most that it held was ${numbers.held}`;
  if (numbers.wasLimited && reach.stage !== 'running') {
    return `the supply held its current at the limit${most}`;
  }
  switch (reach.stage) {
    case 'off':
      return 'its supply stayed off';
    case 'no-draw':
      return 'it was powered and took nothing';
    case 'flat-low':
      return `it took a small, steady current and nothing woke${most}`;
    case 'stepping':
      return reach.share === null
        ? `its draw climbed in steps${most}`
        : `it began to start and did not reach its running draw${most}`;
    case 'running':
      return `it reached its running draw${most}`;
  }
}

function partSentence(parts: readonly Part[]): string | null {
  const fitted = parts.filter((part) => part.action === 'fitted');
  if (fitted.length === 0) return null;
  const names = [...new Set(fitted.map((part) => part.designator.trim()))].filter(Boolean);
  const count = fitted.length === 1 ? 'One part was fitted' : `${fitted.length} parts were fitted`;
  return names.length === 0 || names.length > 6
    ? `${count}.`
    : `${count}: ${names.map(isolate).join(', ')}.`;
}

/** Judges the newest reading of each place: what the board was like when it left. */
function readingSentence(whole: JobWhole): string | null {
  const newest = new Map(sortedReadings(whole).map((reading) => [placeKey(reading), reading]));
  const judged = [...newest.values()].map(verdictOf).filter((verdict) => verdict !== '–');
  if (judged.length === 0) return null;
  const good = judged.filter((verdict) => verdict === 'as expected').length;
  if (judged.length === 1) {
    return good === 1
      ? 'The one place with an expected value reads as expected.'
      : 'The one place with an expected value does not read as expected.';
  }
  return good === judged.length
    ? `All ${judged.length} places with an expected value read as expected at the last reading.`
    : `Of ${judged.length} places with an expected value, ${good} read as expected at the last reading.`;
}
