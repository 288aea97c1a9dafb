import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { ChangepointDetector, initSync } from '@bsull/augurs/changepoint';
import { stageLevels } from '../../core/bands/stage-evidence.ts';
import { cellsOf, penalisedPartition, penaltyFor } from '../../core/stages/change-points.ts';
import { UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { classifyTrace } from '../../core/stages/tracker.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { randomSource } from '../core/match/invented-runs.ts';
import { type Measure, measure } from './measure.ts';

const HZ = 20;
const SIZES = [1_000, 4_000, 16_000] as const;
/** How far from the truth a step may be found: the issue of a boundary is 0.2 s. */
const WITHIN_S = 0.2;

/** A staircase with a step every few seconds, 1 mA counts and noise of two counts, and its truth. */
function staircase(samples: number, seed: number): { columns: TraceColumns; truthS: number[] } {
  const random = randomSource(seed);
  const normal = () =>
    Math.sqrt(-2 * Math.log(1 - random() || 1e-12)) * Math.cos(2 * Math.PI * random());
  const truthS: number[] = [];
  const amps = new Float64Array(samples);
  let level = 0.05;
  let left = 60;
  for (let i = 0; i < samples; i += 1) {
    if (left === 0) {
      const step = 0.03 + 0.2 * random();
      level = level > 0.8 || (level > 0.3 && random() < 0.4) ? level - step : level + step;
      truthS.push(i / HZ);
      left = 60 + Math.floor(140 * random());
    }
    left -= 1;
    amps[i] = Math.round((level + 0.002 * normal()) * 1000) / 1000;
  }
  return {
    columns: {
      ticks: Float64Array.from(amps, (_, i) => i * (10_000 / HZ)),
      volts: new Float64Array(samples).fill(12),
      amps,
      regulation: new Uint8Array(samples).fill(1),
    },
    truthS,
  };
}

/** Share of right ones among found and of found ones among true, as one figure. */
function f1(truthS: readonly number[], foundS: readonly number[]): number {
  const open = [...foundS];
  let hits = 0;
  for (const atS of truthS) {
    const near = open.findIndex((one) => Math.abs(one - atS) <= WITHIN_S + 1e-9);
    if (near === -1) continue;
    open.splice(near, 1);
    hits += 1;
  }
  return (2 * hits) / (truthS.length + foundS.length);
}

/**
 * Steps found by the exact penalised pass and the time it takes, beside the Bayesian online change point detector (Adams and
 * MacKay 2007) of the open-source library grafana/augurs with its own defaults on amps in counts.
 */
export async function measureSegments(): Promise<readonly Measure[]> {
  const wasm = createRequire(import.meta.url).resolve('@bsull/augurs/changepoint');
  initSync({ module: readFileSync(wasm.replace(/\.js$/, '_bg.wasm')) });
  const found: Measure[] = [];
  for (const size of SIZES) {
    const { columns, truthS } = staircase(size, 77 + size);
    let startMs = performance.now();
    classifyTrace(columns, { ...UNKNOWN_BOARD, setV: 12 });
    const stagesMs = performance.now() - startMs;
    startMs = performance.now();
    const noise = stageLevels(columns).noiseA!;
    const penalty = penaltyFor('mbic', size) * noise * noise;
    const { ends } = penalisedPartition(cellsOf(columns.amps), penalty);
    const oursMs = performance.now() - startMs;
    const oursS = ends.slice(0, -1).map((end) => end / HZ);
    const counts = columns.amps.map((amps) => amps * 100);
    startMs = performance.now();
    const { indices } = ChangepointDetector.normalGamma().detectChangepoints(counts);
    const theirsMs = performance.now() - startMs;
    const theirsS = indices.filter((i) => i > 0).map((i) => i / HZ);
    const words = `${size.toLocaleString('en')} samples`;
    found.push(
      measure(`stages of ${words}, names and reasons too`, stagesMs, 'ms', 'live at any rate'),
      measure(`exact segments of ${words}`, oursMs, 'ms', 'faster than the baseline', {
        name: 'grafana/augurs, normal-gamma',
        value: theirsMs,
      }),
      measure(`steps found in ${words} within 0.2 s, F1`, f1(truthS, oursS), 'share', 'near 1', {
        name: 'grafana/augurs, normal-gamma',
        value: f1(truthS, theirsS),
      }),
    );
  }
  return found;
}
