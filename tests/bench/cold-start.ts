import path from 'node:path';
import { _electron } from '@playwright/test';
import { openDisplay } from '../../electron/runtime/display.ts';
import { readyApp } from '../../electron/runtime/ready.ts';
import { launchApp } from '../support/launch-app.ts';
import { type Measure, measure, median } from './measure.ts';

const TURNS = 5;

async function emptyWindow(): Promise<number> {
  const ready = await readyApp(() => {});
  const startMs = performance.now();
  const app = await _electron.launch({
    executablePath: ready.electron.path,
    args: [...ready.electron.args, path.join(import.meta.dirname, 'empty-window.cjs')],
    env: process.env as Record<string, string>,
  });
  const page = await app.firstWindow();
  await page.waitForLoadState('load');
  const tookMs = performance.now() - startMs;
  await app.close();
  return tookMs;
}

async function toLiveSample(): Promise<number> {
  const startMs = performance.now();
  const launched = await launchApp();
  await launched.page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const { wakeline } = globalThis as unknown as {
          wakeline: { on(event: string, listener: () => void): () => void };
        };
        const stop = wakeline.on('liveBatch', () => {
          stop();
          resolve();
        });
      }),
  );
  const tookMs = performance.now() - startMs;
  await launched.close();
  return tookMs;
}

/** Cold start to the first live sample in the window, against an Electron window with nothing in it. */
export async function measureColdStart(): Promise<readonly Measure[]> {
  const display = await openDisplay(() => {});
  Object.assign(process.env, display.env);
  try {
    const [empty, ours]: [number[], number[]] = [[], []];
    for (let turn = 0; turn < TURNS; turn += 1) {
      empty.push(await emptyWindow());
      ours.push(await toLiveSample());
    }
    return [
      measure(
        'cold start to first live sample',
        median(ours),
        'ms',
        'as near the empty window as can be',
        {
          name: 'an empty Electron window, loaded',
          value: median(empty),
        },
      ),
    ];
  } finally {
    display.close();
  }
}
