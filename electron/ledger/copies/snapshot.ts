import { rm } from 'node:fs/promises';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import type { Db } from '../ledger-context.ts';
import { cancelled, copyTrouble } from './copy-trouble.ts';

/** Pages copied at once: half a megabyte, a few milliseconds, then recording has its turn. */
const PAGES = 128;

export interface Snapshot {
  /** Rows of each table in the ledger at the moment that the copy is of. */
  readonly counts: Readonly<Record<string, number>>;
  readonly pages: number;
}

/**
 * Copies an open ledger page by page into `target`, which is not there yet, while it is being written
 * to: the copy is of the moment that it ends. Throws `disk-full`, `folder-missing`,
 * `file-not-written`, `cancelled`; the half copy is gone then.
 */
export async function snapshotLedger(o: {
  readonly sqlite: BetterSqlite.Database;
  readonly db: Db;
  readonly target: string;
  readonly signal: AbortSignal;
  readonly tell: (done: number, total: number) => void;
  /** The folder to name when it cannot be written; left out = the target's own. */
  readonly named?: string;
}): Promise<Snapshot> {
  const { sqlite, target, signal } = o;
  try {
    let begun: () => void = () => {};
    const hasBegun = new Promise<void>((resolve) => {
      begun = resolve;
    });
    // The driver takes a step that found the ledger being written to for the end of an empty copy:
    // nobody writes until the first step is done.
    const copying = o.db.connection().execute(async () => {
      const all = sqlite.backup(target, {
        progress({ totalPages, remainingPages }) {
          begun();
          if (signal.aborted) throw cancelled('The copy');
          o.tell(totalPages - remainingPages, totalPages);
          return PAGES;
        },
      });
      await Promise.race([hasBegun, all]);
      return { all };
    });
    const { totalPages } = await (await copying).all;
    const counts = rowCounts(sqlite);
    return { counts, pages: totalPages };
  } catch (thrown) {
    for (const end of ['', '-journal', '-wal', '-shm']) {
      await rm(`${target}${end}`, { force: true }).catch(() => {});
    }
    throw copyTrouble(thrown, o.named ?? path.dirname(target));
  }
}

/** Rows of every table, by its name. */
export function rowCounts(sqlite: BetterSqlite.Database): Record<string, number> {
  const names = sqlite
    .prepare<[], string>(
      "select name from pragma_table_list where schema = 'main' and type = 'table' and name not like 'sqlite_%' order by name",
    )
    .pluck()
    .all();
  return Object.fromEntries(
    names.map((name) => [
      name,
      sqlite.prepare<[], number>(`select count(*) from "${name}"`).pluck().get() ?? 0,
    ]),
  );
}
