import type { BoardFacts, Job } from '../job/job.ts';
import { formatQuantity, UNKNOWN } from '../units/format.ts';
import type { Fact } from './record-content.ts';
import type { ShopClock } from './record-time.ts';
import { LIQUID_WORDS, MATTERS_WORDS, STATE_WORDS, VERDICT_WORDS } from './record-words.ts';

/** What came in and what was agreed. */
export function jobFacts(job: Job, clock: ShopClock): Fact[] {
  const facts: Fact[] = [
    { label: 'Board', text: job.boardModel ?? 'unknown' },
    { label: 'Serial number', text: said(job.serialNumber) },
    { label: 'Taken in', text: clock.dateTime(job.createdAt) },
    { label: 'State', text: STATE_WORDS[job.state] },
    { label: 'What matters', text: MATTERS_WORDS[job.matters] },
    { label: 'Liquid', text: LIQUID_WORDS[job.liquid] },
    { label: 'Left with it', text: said(job.accessories) },
    { label: 'Symptom', text: said(job.symptom) },
    { label: 'Promised', text: said(job.promised) },
    { label: 'Earlier repairs', text: said(job.earlierRepairs) },
    { label: 'Board notes', text: boardNotes(job.board) },
  ];
  if (job.comebackOf !== null) {
    facts.push({
      label: 'Comeback',
      text: `The same serial number was here before, as job ${job.comebackOf.number}.`,
    });
  }
  return facts;
}

/** How the job ended; empty while it is open. */
export function outcomeFacts(job: Job, clock: ShopClock): Fact[] {
  const { outcome } = job;
  if (outcome === null) return [];
  return [
    { label: 'Outcome', text: VERDICT_WORDS[outcome.verdict] },
    { label: 'Cause', text: said(outcome.cause) },
    { label: 'Proved by', text: said(outcome.provedBy) },
    { label: 'What misled', text: said(outcome.misledBy) },
    { label: 'Closed', text: clock.dateTime(outcome.closedAt) },
  ];
}

function boardNotes(board: BoardFacts): string {
  const notes: string[] = [];
  const base = { prefix: 0 } as const;
  if (board.statedInputV !== null) {
    notes.push(`stated input ${formatQuantity(board.statedInputV, 'V', null, base)}`);
  }
  if (board.statedLimitA !== null) {
    notes.push(`stated limit ${formatQuantity(board.statedLimitA, 'A', null, base)}`);
  }
  if (board.runningA !== null) {
    notes.push(`runs at ${formatQuantity(board.runningA, 'A', null, base)}`);
  }
  if (board.runsFlat === true) notes.push('runs flat when healthy');
  return notes.length === 0 ? UNKNOWN : notes.join(', ');
}

/** Text as a person wrote it, or a dash where nothing was written. */
function said(text: string): string {
  return text.trim() === '' ? UNKNOWN : text;
}
