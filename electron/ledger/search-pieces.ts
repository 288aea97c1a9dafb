import { shopTable } from '../../core/cases/cause-tree.ts';
import type { Quantity } from '../../core/job/job.ts';
import { judgeReadings } from '../../core/rails/judge-readings.ts';
import type { RailVerdict } from '../../core/rails/rail-reading.ts';
import { verdictOf } from '../../core/record/reading-rows.ts';
import { wordsOf } from '../../core/search/fold-words.ts';
import type { SearchFact, SearchPiece, SearchPlace } from '../../core/search/search-piece.ts';
import { findBoard } from './board-store.ts';
import { newestCaseDetails, shopCauses } from './case-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db } from './ledger-context.ts';
import { newestOutcome } from './outcome-store.ts';
import { railReadingsOfJob } from './rail-reading-store.ts';
import { readingsOfJob } from './reading-store.ts';

/** Everything written in a job, piece by piece. What runs say was put aside when they ended. */
export async function searchPieces(db: Db, jobId: string): Promise<readonly SearchPiece[]> {
  const job = await findJobRow(db, jobId);
  if (job === undefined) return [];
  const pieces: SearchPiece[] = [];
  const put = (place: SearchPlace, refId: string, label: string, text: string | null) => {
    if (text !== null && text.trim() !== '') pieces.push({ place, refId, label, text });
  };
  put('facts', 'symptom', 'Symptom', job.symptom);
  put('facts', 'board', 'Board', job.board_model);
  put('facts', 'serial', 'Serial number', job.serial_number);
  put('facts', 'earlier', 'Earlier repairs', job.earlier_repairs);
  put('facts', 'accessories', 'Accessories left', job.accessories);
  put('facts', 'promised', 'Promised', job.promised);
  await putCustomer(db, jobId, job.customer, put);
  await putOutcome(db, jobId, put);
  const parts = await db
    .selectFrom('parts')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('at')
    .execute();
  for (const part of parts) {
    const words = [part.designator, part.kind, part.value, part.rail, part.state_found];
    const said = [...words, part.came_from].filter((word) => word.trim() !== '').join(', ');
    put('parts', part.id, part.action === 'lifted' ? 'Part lifted' : 'Part fitted', said);
  }
  const places = await db
    .selectFrom('readings')
    .select((eb) => ['place', eb.fn.min('id').as('id')])
    .where('job_id', '=', jobId)
    .groupBy('place')
    .execute();
  for (const { place, id } of places) put('readings', id, 'Reading', place);
  const items = await db
    .selectFrom('checklist_items')
    .select(['id', 'title', 'reason'])
    .where('job_id', '=', jobId)
    .where('reason', '!=', '')
    .orderBy('position')
    .execute();
  for (const item of items) put('notes', item.id, item.title, item.reason);
  const pictures = await db
    .selectFrom('pictures')
    .select(['id', 'caption'])
    .where('job_id', '=', jobId)
    .where('binned_at', 'is', null)
    .execute();
  for (const { id, caption } of pictures) put('notes', id, 'Picture', caption);
  const runs = await db
    .selectFrom('search_runs')
    .select(['run_id', 'text'])
    .where('job_id', '=', jobId)
    .where('text', '!=', '')
    .execute();
  for (const run of runs) put('runs', run.run_id, 'Run', run.text);
  return pieces;
}

type Put = (place: SearchPlace, refId: string, label: string, text: string | null) => void;

async function putCustomer(db: Db, jobId: string, name: string, put: Put): Promise<void> {
  const known = await db
    .selectFrom('job_terms')
    .leftJoin('customers', 'customers.id', 'job_terms.customer_id')
    .select(['customers.name', 'customers.reach', 'customers.note', 'job_terms.warranty_note'])
    .where('job_terms.job_id', '=', jobId)
    .executeTakeFirst();
  put('customer', 'customer', 'Customer', known?.name ?? name);
  put('customer', 'reach', 'To reach them', known?.reach ?? null);
  put('customer', 'about', 'About the customer', known?.note ?? null);
  put('customer', 'warranty', 'Warranty', known?.warranty_note ?? null);
  const quotes = await db
    .selectFrom('quotes')
    .select(['id', 'words', 'answer_note'])
    .where('job_id', '=', jobId)
    .execute();
  for (const quote of quotes) {
    put('customer', quote.id, 'Quote', `${quote.words} ${quote.answer_note}`.trim());
  }
  const charges = await db
    .selectFrom('charges')
    .select(['id', 'words'])
    .where('job_id', '=', jobId)
    .execute();
  for (const charge of charges) put('customer', charge.id, 'Charge', charge.words);
}

async function putOutcome(db: Db, jobId: string, put: Put): Promise<void> {
  const outcome = await newestOutcome(db, jobId);
  if (outcome === null) return;
  put('outcome', 'outcome', 'Cause', outcome.cause);
  put('outcome', 'outcome', 'Proved by', outcome.provedBy);
  put('outcome', 'outcome', 'What misled', outcome.misledBy);
  const details = await newestCaseDetails(db, jobId);
  if (details === null) return;
  if (details.causeKey !== null) {
    const { causes } = shopTable(await shopCauses(db));
    const cause = causes.find(({ key }) => key === details.causeKey);
    put('outcome', 'outcome', 'Cause', cause?.text ?? null);
  }
  put('outcome', 'outcome', 'Part', details.part);
  put('outcome', 'outcome', 'Rail', details.rail);
  put('outcome', 'outcome', 'What gave it away', details.gaveAway);
}

/** The name of a rail or a place as searches compare it. */
const nameOf = (text: string): string => ` ${wordsOf(text).join(' ')}`;

/** Verdicts by the words that a search takes; the others are no answer to one. */
const SAID: Partial<Record<RailVerdict, string>> = {
  present: 'present',
  'as-known-good': 'present',
  low: 'low',
  high: 'high',
  missing: 'missing',
  'back-fed': 'back-fed',
  shorted: 'shorted',
  open: 'open',
};

/**
 * The numbers and verdicts of a job's readings. On the rails of a known board they are judged by its
 * table, elsewhere by what was expected of them; what good boards taught since is left out, because
 * it would change behind the index.
 */
export async function searchFacts(db: Db, jobId: string): Promise<readonly SearchFact[]> {
  const job = await findJobRow(db, jobId);
  if (job === undefined) return [];
  const board = await findBoard(db, job.board_key);
  const facts: SearchFact[] = [];
  const amount = (kind: Quantity, name: string, value: number | null, refId: string) => {
    if (value === null || kind === 'continuity') return;
    facts.push({ kind, word: name, verdict: '', amount: value, volts: null, refId });
  };
  const rail = (word: string, verdict: string, refId: string) => {
    if (facts.some((f) => f.kind === 'rail' && f.word === word && f.verdict === verdict)) return;
    facts.push({ kind: 'rail', word, verdict, amount: null, volts: null, refId });
  };
  const onRails =
    board === null ? { onRails: [], alone: [] } : await railReadingsOfJob(db, jobId, board);
  if (board !== null) {
    for (const { reading, verdict } of judgeReadings(board, onRails.onRails)) {
      const said = SAID[verdict];
      amount(reading.quantity, nameOf(reading.rail), reading.value, reading.id);
      if (said !== undefined && reading.point === 'output') {
        rail(nameOf(reading.rail), said, reading.id);
      }
    }
  }
  for (const reading of board === null ? await readingsOfJob(db, jobId) : onRails.alone) {
    amount(reading.quantity, nameOf(reading.place), reading.value, reading.id);
    const verdict = verdictOf(reading);
    if (verdict !== '–' && reading.place !== '') {
      const said = verdict === 'as expected' ? 'present' : verdict;
      rail(nameOf(reading.place), said, reading.id);
    }
  }
  return facts;
}
