import type BetterSqlite from 'better-sqlite3';

const LAST_NUMBER = 'last-job-number';

/**
 * Gives the other ledger's new jobs running numbers that are free here, in the attached copy, and
 * remembers the highest. A number that was given here, also to a job that was deleted since, is never
 * given again.
 */
export function numberJobs(
  sqlite: BetterSqlite.Database,
): readonly { readonly from: number; readonly to: number }[] {
  const value = sqlite
    .prepare<[string], string>('select value_json from main.settings where key = ?')
    .pluck()
    .get(LAST_NUMBER);
  const given = value === undefined ? 0 : Number(JSON.parse(value));
  const fresh = sqlite
    .prepare<[], { id: string; number: number }>(
      'select id, number from other.jobs where id not in (select id from main.jobs) order by number',
    )
    .all();
  const highest = sqlite
    .prepare<[], number | null>('select max(number) from other.jobs')
    .pluck()
    .get();
  let next = Math.max(given, highest ?? 0);
  const renumbered: { from: number; to: number }[] = [];
  const give = sqlite.prepare('update other.jobs set number = ? where id = ?');
  for (const job of fresh) {
    if (job.number > given) continue;
    next += 1;
    give.run(next, job.id);
    renumbered.push({ from: job.number, to: next });
  }
  if (fresh.length > 0) {
    sqlite
      .prepare(
        'insert into main.settings (key, value_json) values (?, ?) on conflict (key) do update set value_json = excluded.value_json',
      )
      .run(LAST_NUMBER, JSON.stringify(Math.max(next, given)));
  }
  return renumbered;
}
