import { rm } from 'node:fs/promises';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { v7 } from 'uuid';
import type {
  BackupLine,
  CopyProgress,
  CopyState,
  CopyWork,
  ExportedLedger,
  MergeDone,
  MergePlan,
  RestoredLedger,
} from '../../../core/contract/copy-calls.ts';
import {
  type BackupPlan,
  FIRST_PLAN,
  isBackupDue,
  isBackupName,
} from '../../../core/copies/backup-plan.ts';
import { troubleOf, WakelineError } from '../../../core/errors.ts';
import type { LedgerContext } from '../ledger-context.ts';
import { pictureFolderOf } from '../picture-folder.ts';
import { readSetting, writeSetting } from '../setting-store.ts';
import { backUpLedger } from './back-up.ts';
import {
  type FoundBackup,
  findBackups,
  markBackupFolder,
  refuseMissingFolder,
} from './backup-folder.ts';
import { createMerges } from './merges.ts';
import type { RunAside } from './run-aside.ts';
import { snapshotLedger } from './snapshot.ts';
import { waitingLedger } from './take-restored.ts';

/** What main asks about the ledger as a whole. One piece of work at a time. */
export interface LedgerCopies {
  state(o: null): Promise<CopyState>;
  chooseFolder(o: { folder: string }): Promise<CopyState>;
  changePlan(o: Pick<BackupPlan, 'keep' | 'everyDays'>): Promise<CopyState>;
  backUp(o: null): Promise<BackupLine>;
  /** Makes one when the plan says that it is time; null = it is not, or something else is under way. */
  backUpWhenDue(o: null): Promise<BackupLine | null>;
  backups(o: null): Promise<readonly BackupLine[]>;
  /** Null as the target = to take this ledger's place at the next start. */
  restore(o: { name: string; target: string | null }): Promise<RestoredLedger>;
  /** The folder that is to be made. */
  exportTo(o: { folder: string }): Promise<ExportedLedger>;
  plan(o: { source: string }): Promise<MergePlan>;
  merge(o: { token: string }): Promise<MergeDone>;
  drop(o: { token: string }): Promise<null>;
  cancel(o: null): Promise<boolean>;
}

interface Parts {
  readonly sqlite: BetterSqlite.Database;
  readonly ledgerPath: string;
  readonly app: string;
  readonly aside: RunAside;
  /** True while a board is powered and recorded. */
  readonly isPowered: () => boolean;
  /** Rows came in behind the readers' backs. */
  readonly forget: () => void;
  readonly tell: (progress: CopyProgress) => void;
}

const PLAN = 'backup-plan';
const LAST = 'backup-last';
const FAILED = 'backup-failed';
const LEDGER_ID = 'ledger-id';

/** Backups, exports, restores and merges of an open ledger. */
export function createCopies(context: LedgerContext, parts: Parts): LedgerCopies {
  const { db, now } = context;
  const { sqlite, ledgerPath, app, aside } = parts;
  let busy: { readonly work: CopyWork; readonly stop: AbortController } | null = null;

  const plan = async (): Promise<BackupPlan> => ({
    ...FIRST_PLAN,
    ...((await readSetting(db, PLAN)) as Partial<BackupPlan> | undefined),
  });
  const state = async (): Promise<CopyState> => ({
    plan: await plan(),
    last: ((await readSetting(db, LAST)) as BackupLine | undefined) ?? null,
    failed: ((await readSetting(db, FAILED)) as CopyState['failed'] | undefined) ?? null,
    busy: busy?.work ?? null,
  });
  const ledgerId = async (): Promise<string> => {
    const known = await readSetting(db, LEDGER_ID);
    if (typeof known === 'string') return known;
    const made = v7();
    await writeSetting(db, LEDGER_ID, made);
    return made;
  };

  /** One piece of work at a time: two would fill the same disk and wait for each other's pages. */
  const alone = async <T>(
    work: CopyWork,
    act: (
      signal: AbortSignal,
      tell: (words: string, done: number, total: number) => void,
    ) => Promise<T>,
  ): Promise<T> => {
    if (busy !== null) {
      throw new WakelineError({
        code: 'ledger-busy',
        what: `Something else is being done with the whole ledger: ${busy.work}`,
        where: ledgerPath,
        todo: 'Wait for it to end, or call it off first.',
      });
    }
    const stop = new AbortController();
    busy = { work, stop };
    try {
      return await act(stop.signal, (words, done, total) =>
        parts.tell({ work, words, done, total }),
      );
    } finally {
      busy = null;
    }
  };

  const lineOf = ({ name, note }: FoundBackup, own: string): BackupLine => ({
    name,
    madeAt: note.madeAt,
    bytes: note.bytes,
    jobs: note.counts.jobs ?? 0,
    pictures: note.pictures.length,
    picturesLost: note.picturesLost,
    isOther: note.ledgerId !== own,
  });

  const chosenFolder = async (): Promise<string> => {
    const { folder } = await plan();
    if (folder !== null) return folder;
    throw new WakelineError({
      code: 'folder-missing',
      what: 'No folder for backups was chosen',
      where: 'backups',
      todo: 'Choose one, best on another disk than the ledger. Then back up.',
    });
  };

  const backUp = (): Promise<BackupLine> =>
    alone('backup', async (signal, tell) => {
      const folder = await chosenFolder();
      const id = await ledgerId();
      const { keep } = await plan();
      try {
        const done = await backUpLedger({
          sqlite,
          db,
          ledgerPath,
          folder,
          keep,
          ledgerId: id,
          app,
          now: now(),
          signal,
          tell,
          aside,
        });
        const made = lineOf(done, id);
        await writeSetting(db, LAST, made);
        await writeSetting(db, FAILED, null);
        return made;
      } catch (thrown) {
        const trouble = troubleOf(thrown, folder);
        if (trouble.code !== 'cancelled') await writeSetting(db, FAILED, { at: now(), trouble });
        throw thrown;
      }
    });

  const merges = createMerges(context, { ...parts, alone });

  return {
    state,
    async chooseFolder({ folder }) {
      await markBackupFolder(folder);
      await writeSetting(db, PLAN, { ...(await plan()), folder });
      await writeSetting(db, FAILED, null);
      return state();
    },
    async changePlan({ keep, everyDays }) {
      await writeSetting(db, PLAN, { ...(await plan()), keep, everyDays });
      return state();
    },
    backUp,
    async backUpWhenDue() {
      const { last } = await state();
      if (busy !== null || !isBackupDue(await plan(), last?.madeAt ?? null, now())) return null;
      return backUp();
    },
    async backups() {
      const folder = await chosenFolder();
      refuseMissingFolder(folder);
      const own = await ledgerId();
      return [...(await findBackups(folder))].reverse().map((one) => lineOf(one, own));
    },
    restore: ({ name, target }) =>
      alone('restore', async (signal, tell) => {
        const folder = await chosenFolder();
        refuseMissingFolder(folder);
        if (!isBackupName(name)) throw notThere(folder, name);
        const at = target ?? waitingLedger(ledgerPath);
        // One that waits already gives way to the one that was chosen now.
        if (target === null) await rm(at, { force: true });
        const backup = path.join(folder, name);
        const restored = await aside(
          'restore',
          { backup, target: at, ledgerPath: target ?? ledgerPath },
          signal,
          tell,
        );
        return { ...restored, startsAgain: target === null };
      }),
    exportTo: ({ folder }) =>
      alone('export', async (signal, tell) => {
        const id = await ledgerId();
        // A copy of one moment: the export takes its time and recording goes on meanwhile.
        const snapshot = `${ledgerPath}.exporting`;
        await rm(snapshot, { force: true });
        try {
          await snapshotLedger({
            sqlite,
            db,
            target: snapshot,
            signal,
            tell: (done, total) => tell('copying the ledger', done, total),
          });
          const pictures = pictureFolderOf(ledgerPath);
          const args = { snapshot, pictures, folder, app, ledgerId: id, madeAt: now() };
          return await aside('export', args, signal, tell);
        } catch (thrown) {
          // A thread that was stopped could not tidy up after itself.
          const half = path.join(path.dirname(folder), `.${path.basename(folder)}.part`);
          await rm(half, { recursive: true, force: true }).catch(() => {});
          throw thrown;
        } finally {
          for (const end of ['', '-wal', '-shm']) await rm(snapshot + end, { force: true });
        }
      }),
    ...merges,
    async cancel() {
      busy?.stop.abort();
      return busy !== null;
    },
  };
}

function notThere(folder: string, name: string): WakelineError {
  return new WakelineError({
    code: 'not-found',
    what: 'There is no backup of this name',
    where: path.join(folder, name),
    todo: 'Choose one from the list.',
  });
}
