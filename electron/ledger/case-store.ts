import type { CaseDetails } from '../../core/cases/case-details.ts';
import type { ShopOdds } from '../../core/cases/cause-tree.ts';
import type { TypedSight } from '../../core/cases/findings-of-job.ts';
import type { Cause } from '../../core/evidence/cause-table.ts';
import { type PastCase, proofOf, type Sight } from '../../core/evidence/past-case.ts';
import type { Db } from './ledger-context.ts';
import { flag } from './tables.ts';

/** Causes that the shop added or changed. */
export async function shopCauses(db: Db): Promise<readonly Cause[]> {
  const rows = await db.selectFrom('shop_causes').selectAll().orderBy('key').execute();
  return rows.map((row) => ({
    key: row.key,
    text: row.text,
    parent: row.parent,
    isBench: row.is_bench === 1,
    check: row.check_text,
    weight: row.weight,
    isRetired: row.retired_at !== null,
  }));
}

/** Writes a cause over the one with its key; `at` in UTC ms. */
export async function writeCause(db: Db, cause: Cause, at: number): Promise<void> {
  const columns = {
    text: cause.text,
    parent: cause.parent,
    is_bench: flag(cause.isBench),
    check_text: cause.check,
    weight: cause.weight,
    retired_at: cause.isRetired ? at : null,
    changed_at: at,
  };
  await db
    .insertInto('shop_causes')
    .values({ key: cause.key, ...columns })
    .onConflict((c) => c.column('key').doUpdateSet(columns))
    .execute();
}

/** Rows of odds that the shop put in the place of the starter table's. */
export async function shopOdds(db: Db): Promise<readonly ShopOdds[]> {
  const rows = await db.selectFrom('shop_odds').selectAll().orderBy('question').execute();
  return rows.map(({ question, cause, odds_json }) => ({
    question,
    cause,
    odds: JSON.parse(odds_json) as ShopOdds['odds'],
  }));
}

/** Writes a row of odds; null = back to the starter table's. `at` in UTC ms. */
export async function writeOdds(
  db: Db,
  question: string,
  cause: string,
  odds: ShopOdds['odds'] | null,
  at: number,
): Promise<void> {
  if (odds === null) {
    await db
      .deleteFrom('shop_odds')
      .where('question', '=', question)
      .where('cause', '=', cause)
      .execute();
    return;
  }
  const row = { odds_json: JSON.stringify(odds), changed_at: at };
  await db
    .insertInto('shop_odds')
    .values({ question, cause, ...row })
    .onConflict((c) => c.columns(['question', 'cause']).doUpdateSet(row))
    .execute();
}

/** Every closed job that is not in the bin but `notJobId`, by its newest outcome, oldest first. */
export async function pastCases(db: Db, notJobId: string): Promise<readonly PastCase[]> {
  const rows = await db
    .selectFrom('outcomes')
    .innerJoin('jobs', 'jobs.id', 'outcomes.job_id')
    .leftJoin('outcome_details', 'outcome_details.outcome_id', 'outcomes.id')
    .select([
      'jobs.id as job_id',
      'jobs.board_key',
      'outcomes.closed_at',
      'outcome_details.cause_key',
      'outcome_details.changed',
      'outcome_details.reading_came_back',
      'outcome_details.board_woke',
      'outcome_details.sights_json',
    ])
    .where('jobs.state', '=', 'closed')
    .where('jobs.binned_at', 'is', null)
    .where('jobs.id', '!=', notJobId)
    .orderBy('outcomes.id')
    .execute();
  // A job that was reopened has several outcomes: the newest one is how it ended.
  const newest = new Map(rows.map((row) => [row.job_id, row]));
  return [...newest.values()].map((row) => {
    const cause = row.cause_key;
    return {
      jobId: row.job_id,
      boardModel: row.board_key,
      cause,
      proof: proofOf(cause, {
        changed: row.changed === 1,
        readingCameBack: row.reading_came_back === 1,
        boardWoke: row.board_woke === 1,
      }),
      sights: row.sights_json === null ? [] : (JSON.parse(row.sights_json) as Sight[]),
      closedAt: row.closed_at,
    };
  });
}

export async function insertCaseDetails(
  db: Db,
  outcomeId: string,
  details: CaseDetails,
  sights: readonly Sight[],
): Promise<void> {
  await db
    .insertInto('outcome_details')
    .values({
      outcome_id: outcomeId,
      cause_key: details.causeKey,
      part: details.part,
      rail: details.rail,
      gave_away: details.gaveAway,
      changed: flag(details.changed),
      reading_came_back: flag(details.readingCameBack),
      board_woke: flag(details.boardWoke),
      sights_json: JSON.stringify(sights),
    })
    .execute();
}

/** Details of a job's newest outcome; null when it has none. */
export async function newestCaseDetails(db: Db, jobId: string): Promise<CaseDetails | null> {
  const row = await db
    .selectFrom('outcomes')
    .leftJoin('outcome_details', 'outcome_details.outcome_id', 'outcomes.id')
    .selectAll('outcome_details')
    .where('outcomes.job_id', '=', jobId)
    .orderBy('outcomes.id', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (row === undefined || row.outcome_id === null) return null;
  return {
    causeKey: row.cause_key,
    part: row.part ?? '',
    rail: row.rail ?? '',
    gaveAway: row.gave_away ?? '',
    changed: row.changed === 1,
    readingCameBack: row.reading_came_back === 1,
    boardWoke: row.board_woke === 1,
  };
}

export async function typedSights(db: Db, jobId: string): Promise<readonly TypedSight[]> {
  const rows = await db
    .selectFrom('job_sights')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('seen_at')
    .execute();
  return rows.map(({ question, outcome, seen_at }) => ({ question, outcome, at: seen_at }));
}

/** Writes an answer over the one before; null takes it back. */
export async function writeSight(
  db: Db,
  jobId: string,
  question: string,
  outcome: string | null,
  at: number,
): Promise<void> {
  if (outcome === null) {
    await db
      .deleteFrom('job_sights')
      .where('job_id', '=', jobId)
      .where('question', '=', question)
      .execute();
    return;
  }
  await db
    .insertInto('job_sights')
    .values({ job_id: jobId, question, outcome, seen_at: at })
    .onConflict((c) => c.columns(['job_id', 'question']).doUpdateSet({ outcome, seen_at: at }))
    .execute();
}
