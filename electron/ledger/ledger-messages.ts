import { boardCalls } from '../../core/contract/board-calls.ts';
import type { CopyProgress } from '../../core/contract/copy-calls.ts';
import { evidenceCalls } from '../../core/contract/evidence-calls.ts';
import { huntCalls } from '../../core/contract/hunt-calls.ts';
import { jobCalls } from '../../core/contract/job-calls.ts';
import { matchCalls } from '../../core/contract/match-calls.ts';
import { partCalls } from '../../core/contract/part-calls.ts';
import { pictureCalls } from '../../core/contract/picture-calls.ts';
import { runCalls } from '../../core/contract/run-calls.ts';
import { searchCalls } from '../../core/contract/search-calls.ts';
import { shopCalls } from '../../core/contract/shop-calls.ts';
import { templateCalls } from '../../core/contract/template-calls.ts';
import type { TraceProgress } from '../../core/contract/trace-file-calls.ts';
import type { Result, Trouble } from '../../core/errors.ts';
import type { Ledger } from './ledger-client.ts';

/** Every call that crosses to the ledger's worker, by the half of the ledger that answers it. */
export type LedgerCall =
  | { readonly half: 'handlers'; readonly name: keyof Ledger['handlers'] }
  | { readonly half: 'recorder'; readonly name: keyof Ledger['recorder'] }
  | { readonly half: 'files'; readonly name: keyof Ledger['files'] }
  | { readonly half: 'pictures'; readonly name: keyof Ledger['pictures'] }
  | { readonly half: 'records'; readonly name: keyof Ledger['records'] }
  | { readonly half: 'copies'; readonly name: keyof Ledger['copies'] };

/** What the worker is started with. */
export interface LedgerWorkerData {
  readonly path: string;
  readonly nativeBinding: string | undefined;
  readonly app: string;
}

/** From main to the worker. `close` answers like a call and is the last. */
export type ToLedger = { readonly id: number; readonly args: unknown } & (
  | LedgerCall
  | { readonly half: 'close' }
);

/** From the worker to main. */
export type FromLedger =
  | { readonly say: 'opened' }
  | { readonly say: 'refused'; readonly trouble: Trouble }
  | { readonly say: 'answer'; readonly id: number; readonly result: Result<unknown> }
  | { readonly say: 'job-changed'; readonly jobId: string }
  | { readonly say: 'trace-progress'; readonly progress: TraceProgress }
  | { readonly say: 'copy-progress'; readonly progress: CopyProgress };

/** Names of the recorder's calls: the client makes one method of each. */
export const RECORDER_NAMES = [
  'startRun',
  'appendSupply',
  'appendMeter',
  'saveReport',
  'endRun',
  'markEndOfRun',
  'trimLoose',
  'settingsFor',
  'openGates',
] as const satisfies readonly (keyof Ledger['recorder'])[];

/** Names of the calls about trace files. */
export const FILE_NAMES = [
  'writeRun',
  'readTrace',
] as const satisfies readonly (keyof Ledger['files'])[];

/** Names of the calls for who prints records. */
export const RECORD_NAMES = ['recordOfJob'] as const satisfies readonly (keyof Ledger['records'])[];

/** Names of the calls for who draws pictures. */
export const PICTURE_NAMES = [
  'openPicture',
] as const satisfies readonly (keyof Ledger['pictures'])[];
/** Names of the calls about the ledger as a whole. */
export const COPY_NAMES = [
  'state',
  'chooseFolder',
  'changePlan',
  'backUp',
  'backUpWhenDue',
  'backups',
  'restore',
  'exportTo',
  'plan',
  'merge',
  'drop',
  'cancel',
] as const satisfies readonly (keyof Ledger['copies'])[];

/** Names of the window's calls that the ledger answers. */
export const HANDLER_NAMES = Object.keys({
  ...boardCalls,
  ...evidenceCalls,
  ...huntCalls,
  ...jobCalls,
  ...matchCalls,
  ...partCalls,
  ...pictureCalls,
  ...runCalls,
  ...templateCalls,
  ...searchCalls,
  ...shopCalls,
}) as readonly (keyof Ledger['handlers'])[];

/**
 * The buffers of an answer's columns, so that they move between threads instead of being copied.
 * Only arrays that own their whole buffer: a view would take its neighbours along.
 */
export function buffersOf(value: unknown): ArrayBuffer[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap((part: unknown) =>
    ArrayBuffer.isView(part) &&
    part.buffer instanceof ArrayBuffer &&
    part.byteLength === part.buffer.byteLength
      ? [part.buffer]
      : [],
  );
}
