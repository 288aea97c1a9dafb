import type BetterSqlite from 'better-sqlite3';
import type { Migration } from 'kysely/migration';
import type { CopyProgress } from '../../core/contract/copy-calls.ts';
import type { TraceProgress } from '../../core/contract/trace-file-calls.ts';
import { createBinHandlers } from './bin-handlers.ts';
import { createBoardHandlers } from './board-handlers.ts';
import { createCopies } from './copies/copies.ts';
import { sweepCopies } from './copies/merges.ts';
import { createRunAside } from './copies/run-aside.ts';
import { createDonorHandlers } from './donor-handlers.ts';
import { createEvidenceHandlers, weighJob } from './evidence-handlers.ts';
import { createHuntHandlers } from './hunt-handlers.ts';
import { createIds } from './ids.ts';
import { createItemHandlers } from './item-handlers.ts';
import { createJobHandlers } from './job-handlers.ts';
import type { Ledger } from './ledger-client.ts';
import type { LedgerContext } from './ledger-context.ts';
import { LiveRuns } from './live-runs.ts';
import { createMatchHandlers } from './match-handlers.ts';
import { openDatabase } from './open-database.ts';
import { createPartHandlers } from './part-handlers.ts';
import { PictureFolder } from './picture-folder.ts';
import { createPictureHandlers } from './picture-handlers.ts';
import { createRailHandlers } from './rail-handlers.ts';
import { createReadingHandlers } from './reading-handlers.ts';
import { createRecordCalls } from './record-of-job.ts';
import { createRecorder } from './recorder.ts';
import { recoverRuns } from './recover-runs.ts';
import { createRunHandlers } from './run-handlers.ts';
import { RunReader } from './run-reader.ts';
import { SearchCatchUp } from './search-catch-up.ts';
import { createSearchHandlers } from './search-handlers.ts';
import { createShopHandlers } from './shop-handlers.ts';
import { Signatures } from './signatures.ts';
import { sqliteError } from './sqlite-trouble.ts';
import { createTemplateHandlers } from './template-handlers.ts';
import { createTraceFiles } from './trace-files.ts';

export interface LedgerPlace {
  readonly path: string;
  /** SQLite's native part for this runtime; left out = the shipped one. */
  readonly nativeBinding?: string | undefined;
  /** UTC ms; left out = the machine's clock. */
  readonly now?: () => number;
  readonly onJobChanged?: ((jobId: string) => void) | undefined;
  readonly onTraceProgress?: ((progress: TraceProgress) => void) | undefined;
  readonly onCopyProgress?: ((progress: CopyProgress) => void) | undefined;
  /** The app's version, for what it writes into copies. */
  readonly app?: string | undefined;
  /** The script of the threads for long work; left out = the one beside ours. */
  readonly asideEntry?: URL | undefined;
  readonly migrations?: Readonly<Record<string, Migration>> | undefined;
}

/**
 * Opens a ledger in this thread: for the worker, for tests and for command-line tools. Throws what
 * `openDatabase` throws. Runs that the last app left unfinished are closed and kept.
 */
export async function openLedgerInThread(o: LedgerPlace): Promise<Ledger> {
  const { db, sqlite } = await openDatabase(o);
  await sweepCopies(o.path);
  const now = o.now ?? Date.now;
  const context: LedgerContext = {
    db,
    now,
    newId: createIds(now),
    random: Math.random,
    jobChanged: (jobId) => o.onJobChanged?.(jobId),
  };
  const recovered = await recoverRuns(context).catch((thrown: unknown) => {
    sqlite.close();
    throw sqliteError(thrown, o.path);
  });
  const live = new LiveRuns(context);
  const reader = new RunReader(db, live);
  const signatures = new Signatures(db, reader);
  const runHandlers = createRunHandlers(context, { live, reader, recovered });
  const { readRun } = runHandlers;
  const recorder = createRecorder(context, { live, reader, signatures });
  const railHandlers = createRailHandlers(context);
  const { openPicture, sweepPictures, ...pictureHandlers } = createPictureHandlers(
    context,
    new PictureFolder(o.path),
  );
  const sources = {
    reportOf: async (id: string) => (await readRun({ id })).report,
    walkOf: async (jobId: string) =>
      (await railHandlers.railWalk({ jobId, state: null, isPowered: false })).job,
  };
  const catchUp = new SearchCatchUp(db);
  catchUp.start();
  const reclaimRoom = () => {
    signatures.forget();
    reclaim(sqlite);
  };
  const handlers: Ledger['handlers'] = inPlainWords(o.path, {
    ...createJobHandlers(context, (jobId) => weighJob(db, jobId, sources), catchUp),
    ...createSearchHandlers(context, catchUp),
    ...createShopHandlers(context),
    ...createBoardHandlers(context),
    ...railHandlers,
    ...createHuntHandlers(context),
    ...createItemHandlers(context),
    ...createTemplateHandlers(context),
    ...createReadingHandlers(context),
    ...createPartHandlers(context),
    ...createDonorHandlers(context),
    ...createEvidenceHandlers(context, sources),
    ...pictureHandlers,
    ...createBinHandlers(context, { live, reader, reclaim: reclaimRoom, sweepPictures }),
    ...runHandlers,
    ...createMatchHandlers(context, {
      reader,
      signatures,
      readRun,
      settingsFor: recorder.settingsFor,
    }),
  });
  return {
    path: o.path,
    handlers,
    records: inPlainWords(o.path, createRecordCalls(handlers)),
    pictures: inPlainWords(o.path, { openPicture }),
    recorder: inPlainWords(o.path, recorder),
    files: inPlainWords(
      o.path,
      createTraceFiles(context, {
        live,
        recorder,
        readRun: async (id) => (await readRun({ id })).run,
        tell: (progress) => o.onTraceProgress?.(progress),
      }),
    ),
    copies: inPlainWords(
      o.path,
      createCopies(context, {
        sqlite,
        ledgerPath: o.path,
        app: o.app ?? '',
        aside: createRunAside(o.asideEntry),
        isPowered: () => [...live.all()].some(({ kind }) => kind === 'powered'),
        forget: () => {
          reader.forgetAll();
          signatures.forget();
        },
        tell: (progress) => o.onCopyProgress?.(progress),
      }),
    ),
    async close() {
      live.stop();
      try {
        await live.flush();
        await catchUp.close();
      } finally {
        await db.destroy();
      }
    },
  };
}

/** The same calls, but what SQLite answers is thrown in plain words. */
function inPlainWords<C extends object>(path: string, calls: C): C {
  const translated = Object.entries(calls).map(([name, call]) => [
    name,
    async (args: unknown) => {
      try {
        return await call(args);
      } catch (thrown) {
        throw sqliteError(thrown, `${name}, ${path}`);
      }
    },
  ]);
  return Object.fromEntries(translated) as C;
}

/** Gives the room of deleted runs back to the disk. */
function reclaim(sqlite: BetterSqlite.Database): void {
  sqlite.pragma('incremental_vacuum');
  sqlite.pragma('wal_checkpoint(TRUNCATE)');
}
