import path from 'node:path';
import { Worker } from 'node:worker_threads';
import { type Trouble, WakelineError } from '../../../core/errors.ts';
import type { AsideName, AsideTasks } from './aside-tasks.ts';
import { cancelled } from './copy-trouble.ts';
import type { Tell } from './export-ledger.ts';

/** Does a piece of long work beside the ledger's own thread; an abort ends it where it is. */
export type RunAside = <N extends AsideName>(
  name: N,
  args: AsideTasks[N]['args'],
  signal: AbortSignal,
  tell: Tell,
) => Promise<AsideTasks[N]['result']>;

/** From the thread: how far it is, what it answers, or why it could not. */
export type FromAside =
  | { readonly say: 'far'; readonly words: string; readonly done: number; readonly total: number }
  | { readonly say: 'done'; readonly result: unknown }
  | { readonly say: 'failed'; readonly trouble: Trouble };

/** The thread's script lies beside this one, as source or bundled. */
const ENTRY = new URL(`aside-worker${path.extname(import.meta.url)}`, import.meta.url);

/** Long work is done in threads that are started with the script at `entry`. */
export const createRunAside =
  (entry: URL = ENTRY): RunAside =>
  (name, args, signal, tell) =>
    new Promise((resolve, reject) => {
      if (signal.aborted) return reject(cancelled('It'));
      const worker = new Worker(entry, { workerData: { name, args }, name: 'aside' });
      let isOver = false;
      const end = (finish: () => void): void => {
        if (isOver) return;
        isOver = true;
        signal.removeEventListener('abort', stop);
        // Gone before the caller goes on: what it left half-written is then the caller's to delete.
        void worker.terminate().then(finish);
      };
      const stop = (): void => end(() => reject(cancelled('It')));
      signal.addEventListener('abort', stop);
      worker.on('message', (message: FromAside) => {
        if (message.say === 'far') return tell(message.words, message.done, message.total);
        if (message.say === 'failed') return end(() => reject(new WakelineError(message.trouble)));
        // The task's name ties its answer to this type; a message cannot show it.
        end(() => resolve(message.result as AsideTasks[typeof name]['result']));
      });
      worker.on('error', (thrown) => end(() => reject(thrown)));
      worker.on('exit', () => end(() => reject(cancelled('It'))));
    });
