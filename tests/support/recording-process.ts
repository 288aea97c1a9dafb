import { openLedger } from '../../electron/ledger/ledger-client.ts';
import { jobFields, report, runStart } from './ledger-samples.ts';

/**
 * A process of its own that records at 20 Hz through the ledger's worker, as the app does, and
 * prints `took N` after each sample it handed in. Arguments: ledger file, worker script.
 */
const [file, workerEntry] = process.argv.slice(2);
const ledger = await openLedger({ path: file!, workerEntry: new URL(workerEntry!) });
const job = await ledger.handlers.createJob(jobFields());
const run = await ledger.recorder.startRun(runStart({ jobId: job.id, startedAt: Date.now() }));
process.stdout.write(`run ${run.id}\n`);
const began = performance.now();
for (let i = 0; ; i += 1) {
  const tick = Math.round((performance.now() - began) * 10);
  await ledger.recorder.appendSupply({
    runId: run.id,
    columns: {
      ticks: Float64Array.of(tick),
      volts: Float64Array.of(19),
      amps: Float64Array.of(i / 1000),
      regulation: Uint8Array.of(1),
    },
  });
  process.stdout.write(`took ${i} ${tick}\n`);
  if (i === 20) {
    await ledger.recorder.saveReport({
      runId: run.id,
      report: report({ marks: [{ mark: 'wake-request', atS: 0.5, text: 'Wake request.' }] }),
      settings: runStart().settings,
    });
  }
  await new Promise((resolve) => setTimeout(resolve, 50));
}
