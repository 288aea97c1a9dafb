import { UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { createTracker } from '../../core/stages/tracker.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import type { Ledger } from '../../electron/ledger/ledger-client.ts';
import { jobFields, runStart } from './ledger-samples.ts';

const PIECE = 20_000;

/**
 * Records an invented run of so many hours through the ledger's own calls: a wake in steps, then a
 * busy draw with bursts, at 1 mA and 10 mV. Returns the ids of its run and job.
 */
export async function recordLongRun(
  ledger: Ledger,
  o: { hours: number; hz: number },
): Promise<{ runId: string; jobId: string; samples: number }> {
  const { handlers, recorder } = ledger;
  const job = await handlers.createJob(jobFields());
  const settings = { ...UNKNOWN_BOARD, setV: 19, limitA: 3, runningA: 0.45 };
  const startedAt = Date.UTC(2026, 0, 5, 9, 0, 0);
  const start = runStart({ jobId: job.id, limitA: 3, settings, startedAt });
  const { id } = await recorder.startRun(start);
  const tracker = createTracker(settings);
  const total = Math.round(o.hours * 3600 * o.hz);
  for (let from = 0; from < total; from += PIECE) {
    const columns = piece(from, Math.min(PIECE, total - from), o.hz);
    for (let i = 0; i < columns.ticks.length; i += 1) {
      tracker.push({
        tick: columns.ticks[i]!,
        volts: columns.volts[i]!,
        amps: columns.amps[i]!,
        regulation: 'cv',
        outputOn: true,
      });
    }
    await recorder.appendSupply({ runId: id, columns });
  }
  const endedAt = startedAt + o.hours * 3_600_000;
  const report = tracker.finish();
  await recorder.endRun({ runId: id, endedAt, end: 'output-off', report, settings });
  return { runId: id, jobId: job.id, samples: total };
}

function piece(from: number, count: number, hz: number): TraceColumns {
  let seed = 1 + (from % 2_147_483_646);
  const noise = () => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647 - 0.5;
  };
  noise();
  const columns = {
    ticks: new Float64Array(count),
    volts: new Float64Array(count),
    amps: new Float64Array(count),
    regulation: new Uint8Array(count).fill(1),
  };
  for (let i = 0; i < count; i += 1) {
    const atS = (from + i) / hz;
    const level = atS < 2 ? 0.02 : atS < 4 ? 0.11 : atS < 6 ? 0.24 : 0.45;
    const busy = level < 0.4 ? 0.003 * noise() : 0.1 * noise() + 0.05 * Math.sin(atS / 7);
    columns.ticks[i] = Math.round((from + i) * (10_000 / hz) + 10 * (1 + noise()));
    columns.volts[i] = Math.round((19 - 0.1 * level + 0.02 * noise()) * 100) / 100;
    columns.amps[i] = Math.round((level + busy) * 1000) / 1000;
  }
  return columns;
}
