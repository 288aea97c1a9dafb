import { z } from 'zod';
import type { BackupPlan } from '../copies/backup-plan.ts';
import type { MergeReport } from '../copies/merge-report.ts';
import type { Trouble } from '../errors.ts';
import { answers } from './call.ts';
import { id, line } from './fields.ts';

/** What is done with the whole ledger; one at a time. */
export type CopyWork = 'backup' | 'export' | 'import' | 'merge' | 'restore';

/** How far it is; `total` 0 = nobody can say. */
export interface CopyProgress {
  readonly work: CopyWork;
  readonly words: string;
  readonly done: number;
  readonly total: number;
}

/** A backup that can be restored. */
export interface BackupLine {
  readonly name: string;
  /** UTC ms. */
  readonly madeAt: number;
  readonly bytes: number;
  readonly jobs: number;
  readonly pictures: number;
  /** Pictures that were missing or damaged when it was made. */
  readonly picturesLost: number;
  /** True for another ledger's backup in the same folder. */
  readonly isOther: boolean;
}

/** Where the backups stand. */
export interface CopyState {
  readonly plan: BackupPlan;
  readonly last: BackupLine | null;
  /** Why the newest try failed, and when; null when it did not. */
  readonly failed: { readonly at: number; readonly trouble: Trouble } | null;
  readonly busy: CopyWork | null;
}

/** A ledger written as open files. */
export interface ExportedLedger {
  readonly folder: string;
  readonly rows: number;
  readonly runs: number;
  readonly pictures: number;
  readonly bytes: number;
}

/** What taking another ledger in would do. */
export interface MergePlan {
  readonly token: string;
  readonly source: string;
  readonly report: MergeReport;
}

/** What it did, and where this ledger lies as it was before. */
export interface MergeDone {
  readonly report: MergeReport;
  readonly before: string;
}

export interface RestoredLedger {
  readonly path: string;
  readonly jobs: number;
  readonly pictures: number;
  readonly picturesLost: number;
  /** True when the app starts again with it. */
  readonly startsAgain: boolean;
}

/** What main tells the window while a copy is made. */
export interface CopyEvents {
  copyProgress: CopyProgress;
  copiesChanged: CopyState;
}

/** Calls about the ledger as a whole: main asks for the place, the ledger's worker works. */
export const copyCalls = {
  readCopyState: answers<CopyState>()(z.object({})),
  /** Asks for the folder that backups go to. Null = changed their mind. */
  chooseBackupFolder: answers<CopyState | null>()(z.object({})),
  changeBackupPlan: answers<CopyState>()(
    z.object({
      keep: z.number().int().min(1, 'keep at least one').max(365),
      everyDays: z.number().int().min(1).max(90).nullable(),
    }),
  ),
  backUpNow: answers<BackupLine>()(z.object({})),
  /** The backups in the chosen folder, newest first. */
  listBackups: answers<readonly BackupLine[]>()(z.object({})),
  /** Restores to a new file that it asks for, or as this app's ledger: the one of today stays beside it. */
  restoreBackup: answers<RestoredLedger | null>()(
    z.object({ name: line.min(1), as: z.enum(['file', 'ledger']) }),
  ),
  /** Asks for a folder, then writes the whole ledger into a new one in it. */
  exportLedger: answers<ExportedLedger | null>()(z.object({})),
  /** Asks for an exported folder or a ledger file and tells what taking it in would do. */
  planMerge: answers<MergePlan | null>()(z.object({ from: z.enum(['folder', 'file']) })),
  /** Takes in what was planned: all of it or nothing. */
  mergeLedger: answers<MergeDone>()(z.object({ token: id })),
  dropMerge: answers<null>()(z.object({ token: id })),
  /** Calls off what is under way. Answers whether there was anything. */
  cancelCopy: answers<boolean>()(z.object({})),
} as const;
