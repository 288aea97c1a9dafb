import { parentPort, workerData } from 'node:worker_threads';
import { type Result, troubleOf } from '../../core/errors.ts';
import { goLater } from '../runtime/thread-priority.ts';
import type { Ledger } from './ledger-client.ts';
import {
  buffersOf,
  type FromLedger,
  type LedgerWorkerData,
  type ToLedger,
} from './ledger-messages.ts';
import { openLedgerInThread } from './open-ledger-in-thread.ts';

/** Entry of the ledger's worker thread: opens the file, then answers one message a call. */
const port = parentPort;
const { path, nativeBinding, app } = workerData as LedgerWorkerData;

const say = (message: FromLedger, moved: ArrayBuffer[] = []) => port?.postMessage(message, moved);

async function answer(ledger: Ledger, message: ToLedger): Promise<Result<unknown>> {
  try {
    if (message.half === 'close') {
      await ledger.close();
      return { ok: true, value: null };
    }
    // The message was built from the contract's own names and arguments by the client beside it.
    const half = ledger[message.half] as Record<string, (args: unknown) => unknown>;
    return { ok: true, value: await half[message.name]!(message.args) };
  } catch (thrown) {
    const where = message.half === 'close' ? 'close' : message.name;
    return { ok: false, trouble: troubleOf(thrown, `${where}, ${path}`) };
  }
}

goLater();
try {
  const ledger = await openLedgerInThread({
    path,
    nativeBinding,
    app,
    onJobChanged: (jobId) => say({ say: 'job-changed', jobId }),
    onTraceProgress: (progress) => say({ say: 'trace-progress', progress }),
    onCopyProgress: (progress) => say({ say: 'copy-progress', progress }),
  });
  port?.on('message', (message: ToLedger) => {
    void answer(ledger, message).then((result) => {
      say({ say: 'answer', id: message.id, result }, result.ok ? buffersOf(result.value) : []);
      if (message.half === 'close') port.close();
    });
  });
  say({ say: 'opened' });
} catch (thrown) {
  say({ say: 'refused', trouble: troubleOf(thrown, path) });
  port?.close();
}
