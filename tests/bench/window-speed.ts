import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { LTTB } from 'downsample';
import { createPyramid } from '../../core/trace/pyramid.ts';
import { openLedgerInThread } from '../../electron/ledger/open-ledger-in-thread.ts';
import { launchApp } from '../support/launch-app.ts';
import { recordLongRun } from '../support/long-run.ts';
import { type Measure, measure } from './measure.ts';

const HOURS = 24;
const HZ = 20;
const COLUMNS = 1000;
const ASKED = 300;
const LAST_TICK = HOURS * 3600 * 10_000;

const percentile = (values: readonly number[], share: number) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length * share)]!;

/**
 * Any window of a 24-hour run to 1,000 columns: from disk through the ledger's thread and main into
 * the real window, and what the reduction alone takes beside largest-triangle-three-buckets
 * (Steinarsson 2013) by the open-source library downsample.
 */
export async function measureWindows(): Promise<readonly Measure[]> {
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-windows-'));
  const file = path.join(dataFolder, 'ledger.sqlite');
  try {
    const ledger = await openLedgerInThread({ path: file });
    const { runId } = await recordLongRun(ledger, { hours: HOURS, hz: HZ });
    const everything = await ledger.handlers.readSamples({
      id: runId,
      fromTick: 0,
      toTick: LAST_TICK + 1000,
      limit: 2_000_000,
    });
    await ledger.close();
    const reduction = reduce(everything);
    const { page, close } = await launchApp({ dataFolder });
    const [cold, warm] = await page.evaluate(
      async (o) => {
        const { wakeline } = globalThis as unknown as {
          wakeline: { readWindow(args: unknown): Promise<{ ok: boolean }> };
        };
        const passes: number[][] = [[], []];
        let seed = 5;
        const random = () => {
          seed = (seed * 48_271) % 2_147_483_647;
          return seed / 2_147_483_647;
        };
        // Every zoom alike: from ten seconds to the whole day. The second pass finds a warm cache.
        for (let i = 0; i < 2 * o.asked; i += 1) {
          if (i === o.asked) seed = 5;
          const span = 100_000 * (o.lastTick / 100_000) ** random();
          const fromTick = Math.floor(random() * (o.lastTick - span));
          const startMs = performance.now();
          const toTick = Math.ceil(fromTick + span);
          const answer = await wakeline.readWindow({
            id: o.id,
            fromTick,
            toTick,
            columns: o.columns,
          });
          if (!answer.ok) throw new Error('the window was refused');
          passes[i < o.asked ? 0 : 1]!.push(performance.now() - startMs);
        }
        return passes;
      },
      { id: runId, asked: ASKED, lastTick: LAST_TICK, columns: COLUMNS },
    );
    await close();
    const name = 'window of a 24 h run, disk to the window';
    return [
      measure(`${name}, warm, p95`, percentile(warm!, 0.95), 'ms', 'at most 10'),
      measure(`${name}, warm, median`, percentile(warm!, 0.5), 'ms', 'at most 10'),
      measure(`${name}, first look, p95`, percentile(cold!, 0.95), 'ms', 'not felt'),
      ...reduction,
    ];
  } finally {
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

/** The whole day to 1,000 columns, by the pyramid and by the library; and a one-sample spike in it. */
function reduce(samples: Parameters<ReturnType<typeof createPyramid>['append']>[0]) {
  const spiked = { ...samples, amps: Float64Array.from(samples.amps) };
  const spikes = [1234, 400_001, 900_017, 1_500_003].filter((i) => i < spiked.amps.length);
  for (const i of spikes) spiked.amps[i] = 2.5;
  const builtMs = performance.now();
  const pyramid = createPyramid();
  pyramid.append(spiked);
  const buildMs = performance.now() - builtMs;
  let startMs = performance.now();
  const window = pyramid.window(0, LAST_TICK, COLUMNS);
  const oursMs = performance.now() - startMs;
  const points = Array.from(spiked.amps, (amps, i): [number, number] => [spiked.ticks[i]!, amps]);
  startMs = performance.now();
  const picked = LTTB(points, 2 * COLUMNS) as [number, number][];
  const theirsMs = performance.now() - startMs;
  const shown = (values: Iterable<number>) => [...values].filter((amps) => amps === 2.5).length;
  const name = 'downsample, LTTB';
  return [
    measure('24 h to 1,000 columns', oursMs, 'ms', 'free', { name, value: theirsMs }),
    measure(
      'one-sample spikes of 24 h that stay on screen',
      shown(window.ampsMax) / spikes.length,
      'share',
      '1',
      { name, value: shown(picked.map(([, amps]) => amps)) / spikes.length },
    ),
    measure('pyramid of 24 h built', buildMs, 'ms', 'as the run grows'),
  ];
}
