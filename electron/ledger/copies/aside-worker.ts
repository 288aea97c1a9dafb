import { parentPort, workerData } from 'node:worker_threads';
import { troubleOf } from '../../../core/errors.ts';
import { type AsideName, type AsideTasks, doTask } from './aside-tasks.ts';
import type { FromAside } from './run-aside.ts';

/** Entry of the thread beside the ledger's: does the one piece of work that it was started for. */
const { name, args } = workerData as { name: AsideName; args: AsideTasks[AsideName]['args'] };
const say = (message: FromAside) => parentPort?.postMessage(message);

/** The window draws no more often than this. */
const TELL_EVERY_MS = 100;
let toldAt = 0;

try {
  const result = await doTask(name, args, (words, done, total) => {
    if (performance.now() - toldAt < TELL_EVERY_MS) return;
    toldAt = performance.now();
    say({ say: 'far', words, done, total });
  });
  say({ say: 'done', result });
} catch (thrown) {
  say({ say: 'failed', trouble: troubleOf(thrown, name) });
}
