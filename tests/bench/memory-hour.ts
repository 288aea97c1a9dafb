import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createLiveFeed } from '../../electron/bench/bench-feed.ts';
import { createBenchRecorder } from '../../electron/bench/bench-recorder.ts';
import { openLedger } from '../../electron/ledger/ledger-client.ts';
import { type Measure, measure } from './measure.ts';

const HZ = 20;
const HOUR = 3600 * HZ;
const workerEntry = new URL('../../electron/ledger/worker.ts', import.meta.url);

/** Memory after an hour of recording, driven as fast as it goes through recorder and ledger. */
export async function measureMemory(): Promise<readonly Measure[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-bench-'));
  const ledger = await openLedger({ path: path.join(folder, 'ledger.sqlite'), workerEntry });
  try {
    let sequence = 0;
    const live = createLiveFeed((batch) => {
      sequence = batch.sequence;
    });
    const recorder = createBenchRecorder({
      recorder: ledger.recorder,
      live,
      facts: () => ({
        jobId: null,
        feed: { point: 'charger-input', cells: false, screen: false, drive: false, note: '' },
        setV: 12,
        limitA: 2,
        instrument: 'bench',
        pretend: true,
        canSwitch: true,
        huntId: null,
      }),
      wallMs: () => 1_700_000_000_000,
      runBegan() {},
      runEnded() {},
      stagesMoved() {},
      trouble(trouble) {
        throw new Error(trouble.what);
      },
    });
    let before = 0;
    for (let i = 0; i < HOUR; i += 1) {
      const amps = i < 200 ? 0 : 0.45 + (((i * 104_729) % 97) - 48) / 1000;
      recorder.push(
        { volts: 12, amps, regulation: 'cv', outputOn: i >= 40, sentMs: i * 50, gotMs: i * 50 },
        i * 50,
      );
      if (i % 10 === 9) {
        live.flush();
        live.acknowledge(sequence);
        await recorder.flush();
      }
      if (i === HOUR / 6) before = resident();
    }
    const after = resident();
    await recorder.stop('app-closed');
    return [
      measure(
        'memory after an hour simulated',
        after,
        'MB resident',
        'within 5 % of ten minutes in',
        {
          name: 'the same process ten minutes in',
          value: before,
        },
      ),
    ];
  } finally {
    await ledger.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function resident(): number {
  (globalThis as { gc?: () => void }).gc?.();
  return process.memoryUsage().rss / 1e6;
}
