import { UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { createTracker } from '../../core/stages/tracker.ts';
import type { Sample } from '../../core/trace/sample.ts';
import { type Measure, measure, median } from './measure.ts';

const SAMPLES = 576_000;
const TURNS = 3;

/** Eight hours at 20 Hz: a wake in steps, then a busy running draw, 1 mA resolution. */
function busyRun(): Sample[] {
  const samples: Sample[] = [];
  let seed = 7;
  const noise = () => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return seed / 2_147_483_648 - 0.5;
  };
  for (let i = 0; i < SAMPLES; i += 1) {
    const atS = i / 20;
    const level = atS < 2 ? 0 : atS < 4 ? 0.02 : atS < 5 ? 0.11 : atS < 6 ? 0.24 : 0.45;
    const busy = level > 0.4 ? 0.2 * noise() : 0.004 * noise();
    samples.push({
      tick: i * 500,
      volts: atS < 2 ? 0 : Math.round((12 + 0.004 * noise()) * 1000) / 1000,
      amps: Math.max(0, Math.round((level + busy) * 1000) / 1000),
      regulation: atS < 2 ? 'off' : 'cv',
      outputOn: atS >= 2,
    });
  }
  return samples;
}

/** Milliseconds of processor time so far: on a busy machine a wall clock measures the others' work. */
function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/**
 * Samples a second of one core's time through the stage tracker, against one pass that only sums
 * them.
 */
export async function measureStages(): Promise<readonly Measure[]> {
  const samples = busyRun();
  const [ours, bare, finals]: [number[], number[], number[]] = [[], [], []];
  for (let turn = 0; turn < TURNS; turn += 1) {
    let startMs = processorMs();
    const tracker = createTracker({ ...UNKNOWN_BOARD, setV: 12, limitA: 2, runningA: 0.45 });
    for (const sample of samples) tracker.push(sample);
    ours.push((SAMPLES * 1000) / (processorMs() - startMs));
    startMs = processorMs();
    const report = tracker.finish();
    finals.push(processorMs() - startMs);
    if (report.samples !== SAMPLES) throw new Error('the tracker lost samples');
    startMs = processorMs();
    let sum = 0;
    for (const sample of samples) sum += (sample.amps ?? 0) * (sample.volts ?? 0);
    if (sum < 0) throw new Error('impossible');
    bare.push((SAMPLES * 1000) / (processorMs() - startMs));
  }
  return [
    measure(
      'samples classified a second of one core',
      median(ours),
      'samples/s',
      'at least 500,000',
      {
        name: 'one pass that only sums watts',
        value: median(bare),
      },
    ),
    measure('final pass of an eight-hour run', median(finals), 'ms', 'under 300'),
  ];
}
