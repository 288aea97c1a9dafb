import type { Db } from './ledger-context.ts';

/** Classified runs of a supply that its zero is learned from. */
const MOST_STRETCHES = 40;
const FEWEST_STRETCHES = 3;
/** Shorter stretches are too noisy to teach a zero. */
const SHORTEST_S = 1;

/**
 * What the supply in use reads when nothing is drawn, in amps: the median over the newest
 * stretches with output off or no draw of runs on the same instrument. Null = not learned yet.
 */
export async function learnedZeroA(db: Db): Promise<number | null> {
  const newest = await db
    .selectFrom('runs')
    .select(['instrument', 'pretend'])
    .orderBy('started_at', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (newest === undefined) return null;
  const rows = await db
    .selectFrom('stages')
    .innerJoin('classifications as c', 'c.id', 'stages.classification_id')
    .innerJoin('runs', 'runs.id', 'c.run_id')
    .select('stages.mean_a')
    .where('runs.instrument', '=', newest.instrument)
    .where('runs.pretend', '=', newest.pretend)
    .where('stages.stage', 'in', ['off', 'no-draw'])
    .where('stages.mean_a', 'is not', null)
    .where((eb) => eb(eb('stages.end_s', '-', eb.ref('stages.start_s')), '>=', SHORTEST_S))
    .orderBy('c.id', 'desc')
    .limit(MOST_STRETCHES)
    .execute();
  const levels = rows.flatMap((row) => (row.mean_a === null ? [] : [row.mean_a]));
  if (levels.length < FEWEST_STRETCHES) return null;
  levels.sort((a, b) => a - b);
  return levels[levels.length >>> 1] ?? null;
}
