import { mkdir, readdir, rm } from 'node:fs/promises';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { v7 } from 'uuid';
import type { CopyWork } from '../../../core/contract/copy-calls.ts';
import { WakelineError } from '../../../core/errors.ts';
import { linkComebacks } from '../comeback-store.ts';
import type { Db, LedgerContext } from '../ledger-context.ts';
import { pictureFolderOf } from '../picture-folder.ts';
import { readAgainForSearch } from '../search-index-store.ts';
import type { LedgerCopies } from './copies.ts';
import { copyTrouble } from './copy-trouble.ts';
import type { Tell } from './export-ledger.ts';
import { type Merged, mergeLedger } from './merge-ledger.ts';
import type { RunAside } from './run-aside.ts';
import { snapshotLedger } from './snapshot.ts';
import type { StagedLedger } from './stage-ledger.ts';

interface Parts {
  readonly sqlite: BetterSqlite.Database;
  readonly ledgerPath: string;
  readonly aside: RunAside;
  readonly isPowered: () => boolean;
  readonly forget: () => void;
  readonly alone: <T>(
    work: CopyWork,
    act: (signal: AbortSignal, tell: Tell) => Promise<T>,
  ) => Promise<T>;
}

/** Where a ledger waits to be taken in: beside this one, so that a kill leaves nothing elsewhere. */
const stagingOf = (ledgerPath: string): string => `${ledgerPath}.merging`;

/** Another ledger is made ready, what it would do is told, then it is taken in or dropped. */
export function createMerges(
  context: LedgerContext,
  parts: Parts,
): Pick<LedgerCopies, 'plan' | 'merge' | 'drop'> {
  const { db, jobChanged } = context;
  const { sqlite, ledgerPath, aside } = parts;
  let waiting: { readonly token: string; readonly staged: StagedLedger } | null = null;

  const dropStaged = async (): Promise<void> => {
    waiting = null;
    await rm(stagingOf(ledgerPath), { recursive: true, force: true });
  };

  const staged = (token: string): StagedLedger => {
    if (waiting?.token === token) return waiting.staged;
    throw new WakelineError({
      code: 'not-found',
      what: 'That ledger is no longer waiting to be taken in',
      where: `merge ${token}`,
      todo: 'Choose the folder or file again.',
    });
  };

  /** Runs the merge in one transaction on this ledger's connection and keeps it, or takes it back. */
  const run = (other: StagedLedger, isKept: boolean): Promise<Merged> =>
    db.connection().execute(async (connection) => {
      sqlite.prepare('attach database ? as other').run(other.path);
      try {
        sqlite.exec('begin immediate');
        const merged = mergeLedger(sqlite);
        if (isKept) await follow(connection, sqlite, merged);
        sqlite.exec(isKept ? 'commit' : 'rollback');
        return merged;
      } catch (thrown) {
        const cause = brokenLink(sqlite, thrown);
        if (sqlite.inTransaction) sqlite.exec('rollback');
        throw cause;
      } finally {
        sqlite.exec('detach database other');
      }
    });

  return {
    plan: ({ source }) =>
      parts.alone('import', async (signal, tell) => {
        await dropStaged();
        const folder = stagingOf(ledgerPath);
        try {
          await mkdir(folder);
          const at = path.join(folder, 'ledger.sqlite');
          const ready = await aside('stage', { source, staged: at }, signal, tell);
          const token = v7();
          waiting = { token, staged: ready };
          const { report } = await run(ready, false);
          return { token, source, report };
        } catch (thrown) {
          await dropStaged();
          throw copyTrouble(thrown, folder);
        }
      }),

    merge: ({ token }) =>
      parts.alone('merge', async (signal, tell) => {
        const other = staged(token);
        refuseWhilePowered(parts.isPowered(), ledgerPath);
        const before = `${ledgerPath}.before-merge.backup`;
        await rm(before, { force: true });
        await snapshotLedger({
          sqlite,
          db,
          target: before,
          signal,
          tell: (done, total) => tell('keeping the ledger as it is', done, total),
        });
        // Files first: a row whose picture is not there yet would be told as lost.
        if (other.pictures !== null) {
          const to = pictureFolderOf(ledgerPath);
          const from = other.pictures;
          await aside('copy-pictures', { ledger: other.path, from, to }, signal, tell);
        }
        refuseWhilePowered(parts.isPowered(), ledgerPath);
        tell('taking it in', 0, 0);
        const { report, jobs } = await run(other, true);
        parts.forget();
        await dropStaged();
        for (const id of jobs) jobChanged(id);
        return { report, before };
      }),

    async drop({ token }) {
      if (waiting?.token === token) await dropStaged();
      return null;
    },
  };
}

/** Links of comebacks and words to search by, of the jobs that changed. */
async function follow(db: Db, sqlite: BetterSqlite.Database, { jobs }: Merged): Promise<void> {
  if (jobs.length === 0) return;
  const keys = sqlite
    .prepare<[], string>(
      'select distinct serial_key from main.jobs where id in (select id from temp.touched_jobs)',
    )
    .pluck()
    .all();
  await linkComebacks(db, keys);
  await readAgainForSearch(db, jobs);
}

/** A merge holds the ledger for as long as it takes: samples of a powered board must not wait. */
function refuseWhilePowered(isPowered: boolean, where: string): void {
  if (!isPowered) return;
  throw new WakelineError({
    code: 'gate-closed',
    what: 'A board is powered and being recorded',
    where,
    todo: 'Switch the output off first. Nothing was taken in yet.',
  });
}

/** Names the rows that point at nothing, where that is what stopped the merge. */
function brokenLink(sqlite: BetterSqlite.Database, thrown: unknown): unknown {
  const code = thrown instanceof Error && 'code' in thrown ? String(thrown.code) : '';
  if (code !== 'SQLITE_CONSTRAINT_FOREIGNKEY' || !sqlite.inTransaction) return thrown;
  const loose = sqlite.pragma('main.foreign_key_check') as readonly {
    readonly table: string;
    readonly parent: string;
  }[];
  const names = new Set(loose.map(({ table, parent }) => `${table} without ${parent}`));
  return new WakelineError(
    {
      code: 'bad-export',
      what: `Rows of the other ledger point at rows that are in neither: ${[...names].join(', ')}`,
      where: 'merging',
      todo: 'Export the other ledger again and take that in. Nothing was changed.',
    },
    { cause: thrown },
  );
}

/** Deletes what a killed app left beside the ledger: half copies and a ledger that waited. */
export async function sweepCopies(ledgerPath: string): Promise<void> {
  const base = path.basename(ledgerPath);
  const left = [`${base}.merging`, `${base}.exporting`, `${base}.restored.part`];
  for (const name of await readdir(path.dirname(ledgerPath)).catch(() => [])) {
    if (!left.some((one) => name === one || name.startsWith(`${one}-`))) continue;
    await rm(path.join(path.dirname(ledgerPath), name), { recursive: true, force: true });
  }
}
