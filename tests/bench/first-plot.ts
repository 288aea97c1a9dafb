import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { createTracker } from '../../core/stages/tracker.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { type Ledger, openLedger } from '../../electron/ledger/ledger-client.ts';
import { type Measure, measure, median } from './measure.ts';

const HZ = 20;
const HOURS = 8;
const SAMPLES = HOURS * 3600 * HZ;
const PIECE = 6000;
const COLUMNS = 1200;
const TURNS = 7;
const workerEntry = new URL('../../electron/ledger/worker.ts', import.meta.url);

/** A stretch of a long run: a busy draw with a slow wander, 1 mV and 1 mA steps, jittered times. */
function stretch(from: number): TraceColumns {
  const columns = {
    ticks: new Float64Array(PIECE),
    volts: new Float64Array(PIECE),
    amps: new Float64Array(PIECE),
    regulation: new Uint8Array(PIECE).fill(1),
  };
  for (let i = 0; i < PIECE; i += 1) {
    const n = from + i;
    columns.ticks[i] = n * 500 + ((n * 7919) % 13);
    columns.volts[i] = (12_000 + ((n * 31) % 5) - 2) / 1000;
    columns.amps[i] = Math.round(450 + 40 * Math.sin(n / 900) + ((n * 104_729) % 97) - 48) / 1000;
  }
  return columns;
}

/** Puts an eight-hour run into a ledger; gives its id. */
export async function seedLongRun(ledger: Ledger): Promise<string> {
  const run = await ledger.recorder.startRun({
    jobId: null,
    kind: 'powered',
    startedAt: 1_700_000_000_000,
    utcOffsetMin: 0,
    feed: { point: 'charger-input', cells: false, screen: false, drive: false, note: '' },
    setV: 12,
    limitA: 2,
    instrument: 'bench',
    pretend: true,
    settings: UNKNOWN_BOARD,
  });
  const tracker = createTracker(UNKNOWN_BOARD);
  for (let from = 0; from < SAMPLES; from += PIECE) {
    await ledger.recorder.appendSupply({ runId: run.id, columns: stretch(from) });
  }
  await ledger.recorder.endRun({
    runId: run.id,
    endedAt: 1_700_000_000_000 + HOURS * 3_600_000,
    end: 'output-off',
    report: tracker.finish(),
    settings: UNKNOWN_BOARD,
  });
  return run.id;
}

/** What a plot costs without anything kept beside the samples: read them all, then reduce. */
async function readAllAndReduce(ledger: Ledger, id: string): Promise<number> {
  const startMs = performance.now();
  const lows = new Float64Array(COLUMNS).fill(Number.POSITIVE_INFINITY);
  const highs = new Float64Array(COLUMNS).fill(Number.NEGATIVE_INFINITY);
  const toTick = SAMPLES * 500;
  for (let from = 0; from < toTick; from += 50_000_000) {
    const part = await ledger.handlers.readSamples({
      id,
      fromTick: from,
      toTick: Math.min(toTick, from + 50_000_000),
      limit: 200_000,
    });
    for (let i = 0; i < part.ticks.length; i += 1) {
      const column = Math.min(COLUMNS - 1, Math.floor((part.ticks[i]! / toTick) * COLUMNS));
      lows[column] = Math.min(lows[column]!, part.amps[i]!);
      highs[column] = Math.max(highs[column]!, part.amps[i]!);
    }
  }
  if (!Number.isFinite(lows[0]!)) throw new Error('no samples came back');
  return performance.now() - startMs;
}

/** Time from a closed ledger to the columns of an eight-hour 20 Hz run, and its size on disk. */
export async function measureFirstPlot(): Promise<readonly Measure[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-bench-'));
  const file = path.join(folder, 'ledger.sqlite');
  try {
    let ledger = await openLedger({ path: file, workerEntry });
    const id = await seedLongRun(ledger);
    await ledger.close();
    const [opened, first, warm, bare]: number[][] = [[], [], [], []];
    for (let turn = 0; turn < TURNS; turn += 1) {
      const startMs = performance.now();
      ledger = await openLedger({ path: file, workerEntry });
      const openMs = performance.now();
      await ledger.handlers.readRun({ id });
      const ask = { id, fromTick: 0, toTick: SAMPLES * 500, columns: COLUMNS };
      const window = await ledger.handlers.readWindow(ask);
      if (window.ampsMax.length === 0) throw new Error('nothing to plot');
      opened![turn] = openMs - startMs;
      first![turn] = performance.now() - openMs;
      const againMs = performance.now();
      await ledger.handlers.readWindow({ ...ask, fromTick: 100_000_000, toTick: 130_000_000 });
      warm![turn] = performance.now() - againMs;
      bare![turn] = await readAllAndReduce(ledger, id);
      await ledger.close();
    }
    const baseline = { name: 'reading every sample and reducing', value: median(bare!) };
    return [
      measure('ledger opened', median(opened!), 'ms', 'as fast as it goes'),
      measure(
        'first plot of an eight-hour 20 Hz run',
        median(first!),
        'ms',
        'well under 100',
        baseline,
      ),
      measure('a window of it again', median(warm!), 'ms', 'at most 10', baseline),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
