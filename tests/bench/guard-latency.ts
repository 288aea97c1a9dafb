import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from '@playwright/test';
import type { Bridge } from '../../core/contract/contract.ts';
import { openLedger } from '../../electron/ledger/ledger-client.ts';
import { openDisplay } from '../../electron/runtime/display.ts';
import { mustAsk } from '../support/ask-app.ts';
import { launchApp } from '../support/launch-app.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { seedLedger } from '../support/seed-ledger.ts';
import { seedLongRun } from './first-plot.ts';
import { type Measure, measure } from './measure.ts';

const TRIPS = 120;
const JOBS = 400;
const LIMIT_A = 0.5;
const WITHIN_MS = 75_000;
const LEAST_TRIPS = 30;
const AIM = 'p99 at most 5 ms';
/** As a replay asks: see `renderer/live/read-samples.ts`. */
const PIECE = 8192;

interface Work {
  readonly jobId: string;
  readonly runId: string;
}

/** A ledger with many jobs to search, an eight-hour run to replay and a whole job to print. */
async function seed(file: string): Promise<Work> {
  const workerEntry = new URL('../../electron/ledger/worker.ts', import.meta.url);
  const ledger = await openLedger({ path: file, workerEntry });
  const { jobs } = await seedLedger(ledger);
  for (let i = 0; i < JOBS; i += 1) await ledger.handlers.createJob(jobFields());
  const runId = await seedLongRun(ledger);
  // A run without a job would be let go of while the app runs.
  await ledger.handlers.giveRun({ id: runId, jobId: jobs.comeback });
  await ledger.close();
  return { jobId: jobs.repaired, runId };
}

/** Searches, reads for a replay and prints, each one after the other without a pause, side by side. */
function keepBusy(page: Page, { jobId, runId }: Work): () => Promise<void> {
  let isOver = false;
  const again = async (work: () => Promise<unknown>) => {
    while (!isOver) await work();
  };
  let at = 0;
  const all = Promise.all([
    again(() =>
      page.evaluate(async () => {
        const { wakeline } = globalThis as unknown as { wakeline: Bridge };
        await wakeline.listJobs({ search: 'a e', limit: 500 });
      }),
    ),
    // In the window itself, as a replay reads: what the bench asks through its debugger passes
    // through main twice.
    again(() => {
      at = (at + 1) % 400;
      return page.evaluate(
        async ([id, fromTick, limit]) => {
          const { wakeline } = globalThis as unknown as { wakeline: Bridge };
          for (let tick = fromTick; tick < fromTick + 36_000_000; ) {
            const asked = { id, fromTick: tick, toTick: 288_000_000, limit };
            const answer = await wakeline.readSamples(asked);
            const last = answer.ok ? answer.value.ticks.at(-1) : undefined;
            if (last === undefined) break;
            tick = last + 1;
          }
        },
        [runId, at * 600_000, PIECE] as const,
      );
    }),
    again(() => mustAsk(page, 'exportRecord', { jobId, paper: 'A4' })),
  ]);
  return async () => {
    isOver = true;
    await all;
  };
}

/**
 * As many trips as come in the time there is, sorted, and those of the bare guard meanwhile; throws
 * where they are too few for a p99.
 */
async function trips(log: string, bareLog: string): Promise<Trips> {
  writeFileSync(log, '');
  writeFileSync(bareLog, '');
  const endMs = performance.now() + WITHIN_MS;
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, 250));
    const times = readFileSync(log, 'utf8').split('\n').filter(Boolean).map(Number);
    // The first ones after a change of work belong to neither.
    const isEnough = times.length >= TRIPS + 5;
    if (!isEnough && performance.now() < endMs) continue;
    if (times.length < LEAST_TRIPS) throw new Error(`${times.length} trips in ${WITHIN_MS} ms`);
    const bare = readFileSync(bareLog, 'utf8').split('\n').filter(Boolean).map(Number);
    return { ours: inOrder(times.slice(5)), bare: inOrder(bare) };
  }
}

interface Trips {
  readonly ours: readonly number[];
  readonly bare: readonly number[];
}

const inOrder = (times: readonly number[]) => [...times].sort((a, b) => a - b);

/** A supply that goes over the limit again and again, in a process of its own. */
async function trippingSupply(port: string, log: string): Promise<ChildProcess> {
  const script = path.join(import.meta.dirname, 'tripping-device.ts');
  const device = spawn(process.execPath, [script, port, log], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await new Promise((resolve) => device.stdout.once('data', resolve));
  return device;
}

const at = (sorted: readonly number[], share: number) =>
  sorted[Math.ceil(share * sorted.length) - 1]!;

/**
 * From a reply's last byte to the OFF read at the other end of the pseudo-terminal, in the real
 * app: on an idle app, and while its ledger worker searches, a replay reads and a PDF prints.
 */
export async function measureGuardLatency(): Promise<readonly Measure[]> {
  const display = await openDisplay(() => {});
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-latency-'));
  const log = path.join(folder, 'trips');
  const bareLog = path.join(folder, 'bare-trips');
  const port = path.join(folder, 'supply');
  const barePort = path.join(folder, 'bare-supply');
  const children = await Promise.all([
    trippingSupply(port, log),
    trippingSupply(barePort, bareLog),
  ]);
  children.push(
    spawn(
      process.execPath,
      [path.join(import.meta.dirname, 'bare-guard.ts'), barePort, String(LIMIT_A)],
      { stdio: ['ignore', 'ignore', 'inherit'] },
    ),
  );
  try {
    const work = await seed(path.join(folder, 'ledger.sqlite'));
    const { app, page, close } = await launchApp({ dataFolder: folder, env: display.env });
    await app.evaluate(
      ({ dialog }, filePath) => {
        dialog.showSaveDialog = async () => ({ canceled: false, filePath });
      },
      path.join(folder, 'record.pdf'),
    );
    while (!(await mustAsk(page, 'benchState', {})).watcherReady) await page.waitForTimeout(50);
    await mustAsk(page, 'connect', {
      role: 'supply',
      address: { by: 'serial', path: port, baud: 115_200 },
    });
    await mustAsk(page, 'setGuardLimits', {
      jobId: null,
      readings: [{ on: 'amps', aboveA: LIMIT_A, holdS: 0, action: 'off' }],
      stages: [],
      own: { overV: null, overA: null },
    });
    await mustAsk(page, 'outputOn', {});
    await mustAsk(page, 'outputOff', {});
    const idle = await trips(log, bareLog);
    const stop = keepBusy(page, work);
    const loaded = await trips(log, bareLog);
    await stop();
    await close();
    const told: Measure[] = [];
    for (const [name, share] of [
      ['p50', 0.5],
      ['p99', 0.99],
      ['max', 1],
    ] as const) {
      for (const [during, { ours, bare }] of [
        ['idle', idle],
        ['while searching, replaying and printing', loaded],
      ] as const) {
        told.push(
          measure(
            `Guard, last byte to OFF, ${during}, ${name} of ${ours.length}`,
            at(ours, share),
            'ms',
            AIM,
            { name: 'a bare serialport guard at the same time', value: at(bare, share) },
          ),
        );
      }
    }
    return told;
  } finally {
    for (const child of children) child.kill();
    display.close();
    // The app's own children may still be writing their last.
    rmSync(folder, { recursive: true, force: true, maxRetries: 20, retryDelay: 250 });
  }
}
