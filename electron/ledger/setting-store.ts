import type { Db } from './ledger-context.ts';

/** A setting's value as it was written; undefined when it never was. */
export async function readSetting(db: Db, key: string): Promise<unknown> {
  const row = await db
    .selectFrom('settings')
    .select('value_json')
    .where('key', '=', key)
    .executeTakeFirst();
  return row === undefined ? undefined : JSON.parse(row.value_json);
}

export async function writeSetting(db: Db, key: string, value: unknown): Promise<void> {
  const value_json = JSON.stringify(value);
  await db
    .insertInto('settings')
    .values({ key, value_json })
    .onConflict((c) => c.column('key').doUpdateSet({ value_json }))
    .execute();
}

/** The shop's next job number, counted up; numbers of deleted jobs are never given again. */
export async function takeJobNumber(db: Db): Promise<number> {
  const last = await readSetting(db, 'last-job-number');
  const number = (typeof last === 'number' ? last : 0) + 1;
  await writeSetting(db, 'last-job-number', number);
  return number;
}
