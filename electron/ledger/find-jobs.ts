import { type RawBuilder, sql } from 'kysely';
import type { AmountRange, SearchTerm } from '../../core/search/search-query.ts';
import { QUANTITY_OF } from '../../core/search/why-found.ts';
import { dayStartMs } from './day-start.ts';
import type { Db } from './ledger-context.ts';

/** How much a hit in each column of the index weighs: facts, customer, notes, parts, outcome, readings, runs, codes. */
const WEIGHTS = sql.raw('6.0, 4.0, 2.0, 5.0, 5.0, 2.0, 1.5, 8.0');

/** Words side by side as the index is asked for them; nothing of them is an operator. */
function phrase(words: readonly string[], isWhole: boolean): string {
  // Folded words hold letters and digits only; quotes keep AND and NEAR from being more than words.
  return `"${words.join(' ')}"${isWhole ? '' : '*'}`;
}

const matching = (asked: string) =>
  sql`(select rowid from search_index where search_index match ${asked})`;

function within(column: RawBuilder<unknown>, range: AmountRange): RawBuilder<unknown> {
  const { low, high, isOpen } = range;
  const slack = (bound: number) => (isOpen ? 0 : Math.abs(bound) * 1e-9);
  const conditions = [
    ...(low === null
      ? []
      : [isOpen ? sql`${column} > ${low}` : sql`${column} >= ${low - slack(low)}`]),
    ...(high === null
      ? []
      : [isOpen ? sql`${column} < ${high}` : sql`${column} <= ${high + slack(high)}`]),
  ];
  return conditions.length === 0 ? sql`1` : sql.join(conditions, sql` and `);
}

/** Numbers of the jobs whose facts meet the conditions. */
const withFacts = (conditions: readonly RawBuilder<unknown>[]) =>
  sql`(select job_number from search_facts where ${sql.join(conditions, sql` and `)})`;

const amount = sql`amount`;
const volts = sql`volts`;

/** Words of a name from their beginnings: they hold letters and digits only, so no sign of LIKE. */
const named = (words: readonly string[]) => words.map((word) => sql`word like ${`% ${word}%`}`);

const inAnyOf = (kinds: readonly string[]) => sql`kind in (${sql.join(kinds)})`;

/** What a term asks of a job as a condition on `j`; null for words, which the index answers at once. */
function conditionOf(term: SearchTerm): RawBuilder<unknown> | null {
  switch (term.kind) {
    case 'text':
      return null;
    case 'stage': {
      const facts = withFacts([
        sql`kind = 'stage'`,
        sql`word = ${term.stage}`,
        ...(term.amps === null ? [] : [within(amount, term.amps)]),
        ...(term.volts === null ? [] : [within(volts, term.volts)]),
      ]);
      if (term.amps !== null || term.volts !== null) return sql`j.number in ${facts}`;
      return sql`(j.number in ${facts} or j.number in ${matching(phrase(term.orWords, true))})`;
    }
    case 'amount': {
      const readings = withFacts([inAnyOf(QUANTITY_OF[term.unit]), within(amount, term.range)]);
      if (term.unit === 'Ω') return sql`j.number in ${readings}`;
      const column = term.unit === 'A' ? amount : volts;
      const stages = withFacts([sql`kind = 'stage'`, within(column, term.range)]);
      return sql`(j.number in ${readings} or j.number in ${stages})`;
    }
    case 'rail': {
      const judged =
        term.verdict === null
          ? []
          : [withFacts([sql`kind = 'rail'`, sql`verdict = ${term.verdict}`, ...named(term.name)])];
      const read =
        term.range === null
          ? []
          : [
              withFacts([
                inAnyOf(QUANTITY_OF[term.range.unit]),
                within(amount, term.range.range),
                ...named(term.name),
              ]),
            ];
      return sql.join(
        [...judged, ...read].map((facts) => sql`j.number in ${facts}`),
        sql` and `,
      );
    }
    case 'liquid':
      if (term.is === 'no') return sql`j.liquid = 'no'`;
      return sql`(j.liquid = 'yes' or j.number in ${matching(phrase(['liquid'], true))})`;
    case 'days': {
      const conditions = [
        ...(term.first === null ? [] : [sql`j.created_at >= ${dayStartMs(term.first, false)}`]),
        ...(term.last === null ? [] : [sql`j.created_at < ${dayStartMs(term.last, true)}`]),
      ];
      return conditions.length === 0 ? sql`1` : sql.join(conditions, sql` and `);
    }
    case 'number':
      return sql`j.number = ${term.number}`;
    case 'tag':
      return sql`(j.id in (select job_id from job_tags where code = ${term.code})
        or j.number in ${matching(phrase([term.code], false))})`;
    case 'state':
      return sql`j.state = ${term.state}`;
    case 'waiting':
      return sql`(j.state = 'waiting' and j.id in
        (select job_id from job_terms where waiting_for = ${term.waitingFor}))`;
    case 'comeback':
      return sql`(j.comeback_of is not null or j.number in ${matching(phrase(['comeback'], false))})`;
  }
}

/** Weighing a hundred thousand hits takes a second; words that so many jobs have tell little. */
const MOST_WEIGHED = 2_000;

/** Numbers of jobs, and whether they are weighed by how well they answer. */
export interface JobsFound {
  readonly numbers: readonly number[];
  readonly isWeighed: boolean;
}

/**
 * Numbers of the jobs in the book that answer every term: best first where words were asked for,
 * newest first where none were, where more than 2,000 jobs have them, or where `order` says so.
 */
export async function findJobs(
  db: Db,
  terms: readonly SearchTerm[],
  o: { limit: number; order: 'best' | 'newest' },
): Promise<JobsFound> {
  const asked = terms
    .filter((term) => term.kind === 'text')
    .map((term) => phrase(term.words, term.isPhrase))
    .join(' AND ');
  const conditions = [
    sql`j.binned_at is null`,
    ...terms.flatMap((term) => conditionOf(term) ?? []),
  ];
  const where = sql.join(conditions, sql` and `);
  const newest = sql`j.created_at desc, j.id desc`;
  const isWeighed = asked !== '' && o.order === 'best' && (await isFew(db, asked));
  // Numbers are given in order, and the index walks them from the end without sorting.
  const order = isWeighed
    ? sql`bm25(search_index, ${WEIGHTS}), ${newest}`
    : sql`search_index.rowid desc`;
  const query =
    asked === ''
      ? sql<{ number: number }>`select j.number from jobs j where ${where}
          order by ${newest} limit ${o.limit}`
      : sql<{ number: number }>`select j.number from search_index
          join jobs j on j.number = search_index.rowid
          where search_index match ${asked} and ${where}
          order by ${order}
          limit ${o.limit}`;
  const { rows } = await query.execute(db);
  return { numbers: rows.map((row) => row.number), isWeighed };
}

async function isFew(db: Db, asked: string): Promise<boolean> {
  const { rows } = await sql<{ n: number }>`select count(*) as n from (select rowid
    from search_index where search_index match ${asked} limit ${MOST_WEIGHED + 1})`.execute(db);
  return Number(rows[0]?.n ?? 0) <= MOST_WEIGHED;
}
