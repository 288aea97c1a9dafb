import { Worker } from 'node:worker_threads';
import type { boardCalls } from '../../core/contract/board-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { CopyProgress } from '../../core/contract/copy-calls.ts';
import type { evidenceCalls } from '../../core/contract/evidence-calls.ts';
import type { huntCalls } from '../../core/contract/hunt-calls.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { matchCalls } from '../../core/contract/match-calls.ts';
import type { partCalls } from '../../core/contract/part-calls.ts';
import type { pictureCalls } from '../../core/contract/picture-calls.ts';
import type { runCalls } from '../../core/contract/run-calls.ts';
import type { searchCalls } from '../../core/contract/search-calls.ts';
import type { shopCalls } from '../../core/contract/shop-calls.ts';
import type { templateCalls } from '../../core/contract/template-calls.ts';
import type { TraceProgress } from '../../core/contract/trace-file-calls.ts';
import { type Trouble, WakelineError } from '../../core/errors.ts';
import type { LedgerCopies } from './copies/copies.ts';
import {
  COPY_NAMES,
  FILE_NAMES,
  type FromLedger,
  HANDLER_NAMES,
  type LedgerWorkerData,
  PICTURE_NAMES,
  RECORD_NAMES,
  RECORDER_NAMES,
  type ToLedger,
} from './ledger-messages.ts';
import type { PictureHandlers } from './picture-handlers.ts';
import type { RecordCalls } from './record-of-job.ts';
import type { RecorderCalls } from './recorder-calls.ts';
import type { TraceFiles } from './trace-files.ts';

/** The ledger as main and tests use it, whichever thread it runs in. */
export interface Ledger {
  readonly path: string;
  readonly handlers: Handlers<
    typeof boardCalls &
      typeof evidenceCalls &
      typeof huntCalls &
      typeof jobCalls &
      typeof matchCalls &
      typeof partCalls &
      typeof pictureCalls &
      typeof templateCalls &
      typeof runCalls &
      typeof searchCalls &
      typeof shopCalls
  >;
  readonly recorder: RecorderCalls;
  readonly files: TraceFiles;
  /** The bytes of pictures, for who draws them. */
  readonly pictures: Pick<PictureHandlers, 'openPicture'>;
  /** What a job's record prints. */
  readonly records: RecordCalls;
  readonly copies: LedgerCopies;
  /** Commits what waits and lets go of the file. */
  close(): Promise<void>;
}

import { sqliteBinding } from './sqlite-binding.ts';

interface Waiting {
  readonly resolve: (value: unknown) => void;
  readonly reject: (error: WakelineError) => void;
}

type Ask = ToLedger extends infer M ? (M extends unknown ? Omit<M, 'id'> : never) : never;

const ended = (path: string, why: string): Trouble => ({
  code: 'internal',
  what: `The ledger's own thread has ended: ${why}`,
  where: path,
  todo: 'Start the app again. What was committed is kept; at most half a second of samples is not.',
});

/**
 * Opens a ledger in a worker thread of its own. Throws what `openDatabase` throws. Every call
 * rejects with a `WakelineError`. Columns that are handed in are copied, columns that come back are
 * moved.
 */
export async function openLedger(o: {
  path: string;
  /** The worker's script: bundled for the app, `worker.ts` itself under Node 24. */
  workerEntry: string | URL;
  nativeBinding?: string | undefined;
  onJobChanged?: ((jobId: string) => void) | undefined;
  onTraceProgress?: ((progress: TraceProgress) => void) | undefined;
  onCopyProgress?: ((progress: CopyProgress) => void) | undefined;
  /** The app's version, for what it writes into copies. */
  app?: string | undefined;
}): Promise<Ledger> {
  const workerData: LedgerWorkerData = {
    path: o.path,
    nativeBinding: sqliteBinding(o.nativeBinding),
    app: o.app ?? '',
  };
  const worker = new Worker(o.workerEntry, { workerData, name: 'ledger' });
  const waiting = new Map<number, Waiting>();
  let nextId = 1;
  let dead: Trouble | null = null;

  const ask = (message: Ask): Promise<unknown> =>
    new Promise((resolve, reject) => {
      if (dead !== null) return reject(new WakelineError(dead));
      const id = nextId;
      nextId += 1;
      waiting.set(id, { resolve, reject });
      worker.postMessage({ ...message, id });
    });

  await new Promise<void>((resolve, reject) => {
    const die = (why: string) => {
      dead ??= ended(o.path, why);
      reject(new WakelineError(dead));
      for (const { reject: refuse } of waiting.values()) refuse(new WakelineError(dead));
      waiting.clear();
    };
    worker.on('error', (thrown) => die(thrown instanceof Error ? thrown.message : String(thrown)));
    worker.on('exit', (code) => die(`it stopped with code ${code}`));
    worker.on('message', (message: FromLedger) => {
      switch (message.say) {
        case 'opened':
          return resolve();
        case 'refused':
          dead = message.trouble;
          return reject(new WakelineError(message.trouble));
        case 'job-changed':
          return o.onJobChanged?.(message.jobId);
        case 'trace-progress':
          return o.onTraceProgress?.(message.progress);
        case 'copy-progress':
          return o.onCopyProgress?.(message.progress);
        case 'answer': {
          const asker = waiting.get(message.id);
          waiting.delete(message.id);
          if (message.result.ok) asker?.resolve(message.result.value);
          else asker?.reject(new WakelineError(message.result.trouble));
        }
      }
    });
  });

  const half = (
    name: 'handlers' | 'recorder' | 'files' | 'pictures' | 'records' | 'copies',
    calls: readonly string[],
  ) =>
    Object.fromEntries(
      calls.map((call) => [call, (args: unknown) => ask({ half: name, name: call, args } as Ask)]),
    );

  return {
    path: o.path,
    handlers: half('handlers', HANDLER_NAMES) as unknown as Ledger['handlers'],
    recorder: half('recorder', RECORDER_NAMES) as unknown as Ledger['recorder'],
    files: half('files', FILE_NAMES) as unknown as Ledger['files'],
    pictures: half('pictures', PICTURE_NAMES) as unknown as Ledger['pictures'],
    records: half('records', RECORD_NAMES) as unknown as Ledger['records'],
    copies: half('copies', COPY_NAMES) as unknown as Ledger['copies'],
    async close() {
      if (dead !== null) return;
      await ask({ half: 'close', args: null });
      await worker.terminate();
    },
  };
}
