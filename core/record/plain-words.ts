import type { PartFacts } from '../donors/donor-board.ts';
import type { ChecklistItem, Job, JobWhole, Part } from '../job/job.ts';
import { isolate } from './isolate.ts';
import type { RecordRun } from './job-record.ts';
import { ENDING_WORDS } from './record-words.ts';

/** Lines of the first page, in words for the owner of the board. */
const MOST_STEPS = 4;

/** How far a run got, as its owner would say it. */
const REACHED: Readonly<Record<RecordRun['report']['reach']['stage'], string>> = {
  off: 'it was not powered',
  'no-draw': 'it took no current at all',
  'flat-low': 'it took a little current and nothing in it woke up',
  stepping: 'it began to start and did not get all the way',
  running: 'it started and ran',
};

const stop = (text: string) => (/[.!?…]$/.test(text.trim()) ? text.trim() : `${text.trim()}.`);

export function wrongLines(job: Job): string[] {
  const lines: string[] = [];
  if (job.symptom.trim() !== '') lines.push(`You told us: “${isolate(job.symptom)}”`);
  if (job.outcome === null) lines.push('We have not finished looking for the cause.');
  else if (job.outcome.cause.trim() === '') lines.push('The cause was not found.');
  else lines.push(`We found: ${isolate(stop(job.outcome.cause))}`);
  return lines;
}

export function workLines(whole: JobWhole, facts: readonly PartFacts[]): string[] {
  const { parts, items } = whole;
  const fitted = distinct(parts.filter(({ action }) => action === 'fitted'));
  const lifted = distinct(parts.filter(({ action }) => action === 'lifted'));
  const isThere = (part: Part) => lifted.some((one) => sameName(one, part));
  const replaced = fitted.filter(isThere);
  const added = fitted.filter((part) => !isThere(part));
  const off = lifted.filter((part) => !fitted.some((one) => sameName(one, part)));
  const lines = [
    ...partLine(replaced, 'part was replaced', 'parts were replaced'),
    ...partLine(added, 'part was fitted', 'parts were fitted'),
    ...partLine(off, 'part was taken off', 'parts were taken off'),
  ];
  for (const part of off) {
    const details = facts.find(({ partId }) => partId === part.id)?.details;
    if (details?.leftOff === 'for-good') {
      lines.push(`${isolate(part.designator)} stays off: ${isolate(stop(details.decision))}`);
    }
  }
  if (lines.length === 0) lines.push('No part was changed.');
  if (isDone(items, 'bath-and-rinse')) lines.push('It was washed and rinsed after the liquid.');
  if (isDone(items, 'dried-and-looked')) lines.push('It was dried and looked over again.');
  return lines;
}

export function proofLines(whole: JobWhole, runs: readonly RecordRun[]): string[] {
  const { outcome } = whole.job;
  if (outcome === null) return ['The work is not finished.'];
  const lines: string[] = [ENDING_WORDS[outcome.verdict]];
  if (outcome.provedBy.trim() !== '') lines.push(isolate(stop(outcome.provedBy)));
  const before = runs.find(({ run }) => run.role === 'before');
  const after = runs.findLast(({ run }) => run.role === 'after');
  const told = [
    ...(before === undefined ? [] : [`Before the repair ${reached(before)}`]),
    ...(after === undefined ? [] : [`after the repair ${reached(after)}`]),
  ].join('; ');
  if (told !== '') lines.push(`${told.charAt(0).toUpperCase()}${told.slice(1)}.`);
  if (isDone(whole.items, 'wakes-three-times')) lines.push('It was started from cold three times.');
  const soaks = whole.items.filter(({ step, state }) => step === 'soaked' && state === 'done');
  for (const { reason } of soaks.slice(-1)) {
    const long = /(\S+ (?:s|min)) of \S+ min/.exec(reason)?.[1];
    lines.push(
      long === undefined
        ? 'It was left running and watched.'
        : `It was left running for ${long} and watched all the time.`,
    );
  }
  return lines;
}

/** A run's end in plain words; never more than its stages say. */
function reached({ report }: RecordRun): string {
  const wasLimited = report.stages.some(({ stage }) => stage === 'limited');
  if (wasLimited && report.reach.stage !== 'running') return 'it drew more current than it should';
  return REACHED[report.reach.stage];
}

export function undoneLines(whole: JobWhole, facts: readonly PartFacts[]): string[] {
  const { job, items, parts } = whole;
  const skipped = items.filter(({ state }) => state === 'skipped');
  const open = job.outcome === null ? [] : items.filter(({ state }) => state === 'open');
  const lines = skipped
    .slice(0, MOST_STEPS)
    .map(
      ({ title, reason }) => `${isolate(title)}: left out, ${isolate(stop(reason || 'no reason'))}`,
    );
  if (skipped.length > MOST_STEPS) lines.push(`${skipped.length - MOST_STEPS} more were left out.`);
  if (open.length > 0) {
    const names = open.slice(0, MOST_STEPS).map(({ title }) => isolate(title));
    const more = open.length - names.length;
    lines.push(`Still open: ${names.join('; ')}${more > 0 ? `; and ${more} more` : ''}.`);
  }
  for (const part of parts.filter(({ action }) => action === 'fitted')) {
    const missing = facts.find(({ partId }) => partId === part.id)?.equivalence?.notChecked ?? [];
    if (missing.length > 0) {
      lines.push(`Of the new ${isolate(part.designator)} not checked: ${missing.join(', ')}.`);
    }
  }
  if (lines.length === 0 && items.length > 0) lines.push('Every step of our list was done.');
  return lines;
}

/** Common practice, no source, but for what the job itself recorded. */
export function lookOutFor({ job }: JobWhole): string[] {
  const lines: string[] = [];
  if (job.liquid === 'yes') {
    lines.push(
      'It was wet. Corrosion can go on where nobody sees it: keep a copy of your data, and bring it back at the first odd sign.',
    );
  }
  if (job.outcome?.verdict === 'partly') {
    lines.push('It works in part only: ask us which part before you rely on it.');
  }
  if (job.comebackOf !== null) {
    lines.push(
      `It was here before, as job ${job.comebackOf.number}. If the same comes back, say so.`,
    );
  }
  lines.push(
    'If it gets unusually hot, smells burnt, or its battery swells: unplug it, do not charge it, keep it away from what burns, and bring it back.',
  );
  return lines;
}

const sameName = (a: Part, b: Part) =>
  a.designator.trim().toLowerCase() === b.designator.trim().toLowerCase();

function distinct(parts: readonly Part[]): Part[] {
  return parts.filter((part, at) => parts.findIndex((one) => sameName(one, part)) === at);
}

function partLine(parts: readonly Part[], one: string, many: string): string[] {
  if (parts.length === 0) return [];
  const names = parts.slice(0, 6).map(({ designator, kind }) => {
    const what = kind.trim() === '' ? '' : ` (${isolate(kind)})`;
    return `${isolate(designator)}${what}`;
  });
  const more = parts.length > 6 ? ` and ${parts.length - 6} more` : '';
  const count = parts.length === 1 ? `One ${one}` : `${parts.length} ${many}`;
  return [`${count}: ${names.join(', ')}${more}.`];
}

const isDone = (items: readonly ChecklistItem[], step: string) =>
  items.some((item) => item.step === step && item.state === 'done');
