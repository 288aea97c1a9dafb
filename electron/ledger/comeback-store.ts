import type { Db } from './ledger-context.ts';

/**
 * Links the jobs of each serial number in order: every later visit to the one before it. Jobs in
 * the bin do not count, and an empty serial number links nothing.
 */
export async function linkComebacks(db: Db, serialKeys: readonly string[]): Promise<void> {
  for (const key of new Set(serialKeys)) {
    const visits = await db
      .selectFrom('jobs')
      .select(['id', 'comeback_of', 'binned_at'])
      .where('serial_key', '=', key)
      .orderBy('created_at')
      .orderBy('id')
      .execute();
    let before: string | null = null;
    for (const visit of visits) {
      const link: string | null = key === '' || visit.binned_at !== null ? null : before;
      if (link !== visit.comeback_of) {
        await db
          .updateTable('jobs')
          .set({ comeback_of: link })
          .where('id', '=', visit.id)
          .execute();
      }
      if (visit.binned_at === null) before = visit.id;
    }
  }
}
