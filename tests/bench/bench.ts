import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { growthCurves, growthPicture } from './growth-picture.ts';
import { type Measure, short } from './measure.ts';

const { values } = parseArgs({
  options: { json: { type: 'string' }, only: { type: 'string' } },
});

/** Each group of figures, by name, loaded when its turn comes. */
const FOLDER = values.json === undefined ? null : path.dirname(values.json);
const GROUPS: Readonly<Record<string, () => Promise<readonly Measure[]>>> = {
  accuracy: async () => [
    ...(await (await import('./stage-accuracy.ts')).measureAccuracy(FOLDER)),
    ...(await import('./detection-latency.ts')).measureDetection(FOLDER),
  ],
  rounds: async () => (await import('./round-trips.ts')).measureRoundTrips(),
  stages: async () => (await import('./stage-speed.ts')).measureStages(),
  advice: async () => [
    ...(await (await import('./next-measurement.ts')).measureNextMeasurement()),
    ...(await (await import('./advice-counts.ts')).measureAdviceCounts()),
  ],
  keeping: async () => (await import('./chunk-size.ts')).measureKeeping(),
  polling: async () => (await import('./polling-cpu.ts')).measurePolling(),
  plot: async () => (await import('./first-plot.ts')).measureFirstPlot(),
  memory: async () => (await import('./memory-hour.ts')).measureMemory(),
  match: async () => (await import('./match-speed.ts')).measureMatch(),
  search: async () => (await import('./search-speed.ts')).measureSearch(),
  evidence: async () => (await import('./evidence-scores.ts')).measureEvidence(),
  copies: async () => (await import('./copy-speed.ts')).measureCopies(),
  files: async () => (await import('./trace-files.ts')).measureTraceFiles(),
  segments: async () => (await import('./segment-speed.ts')).measureSegments(),
  windows: async () => (await import('./window-speed.ts')).measureWindows(),
  guard: async () => (await import('./guard-latency.ts')).measureGuardLatency(),
  start: async () => (await import('./cold-start.ts')).measureColdStart(),
};

const measures: Measure[] = [];
for (const [name, run] of Object.entries(GROUPS)) {
  if (values.only !== undefined && !values.only.split(',').includes(name)) continue;
  for (const one of await run()) {
    measures.push(one);
    const against =
      one.baseline === null
        ? ''
        : `; ${one.baseline.name}: ${short(one.baseline.value)} ${one.unit}; ratio ${short(one.ratio!)}`;
    console.log(`${one.name}: ${short(one.value)} ${one.unit}${against} (aim: ${one.aim})`);
  }
}
const told = {
  at: new Date().toISOString(),
  node: process.version,
  processor: `${cpus().length} x ${cpus()[0]?.model ?? 'unknown'}`,
  measures,
};
if (values.json !== undefined) {
  writeFileSync(values.json, `${JSON.stringify(told, null, 2)}\n`);
  // A picture of each curve beside the figures: how a cost grows says more than one number.
  for (const [name, points] of growthCurves(measures)) {
    const file = `${name.replaceAll(/[^a-z0-9]+/gi, '-').toLowerCase()}.svg`;
    writeFileSync(path.join(path.dirname(values.json), file), growthPicture(name, points));
  }
} else console.log(JSON.stringify(told, null, 2));
process.exit(0);
