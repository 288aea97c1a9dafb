import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { UNKNOWN_BOARD } from '../../../core/stages/stage.ts';
import { classifyTrace, createTracker } from '../../../core/stages/tracker.ts';
import { createTraceFileReader } from '../../../core/trace/csv-read.ts';
import type { Sample } from '../../../core/trace/sample.ts';
import { readTextFile } from '../../../electron/cli/read-text-file.ts';
import {
  exportedRun,
  INSTRUMENT_EXPORTS,
  type InstrumentExport,
} from '../../support/instrument-exports.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-exports-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function readExport(one: InstrumentExport): Promise<Sample[]> {
  const file = path.join(folder, 'export.csv');
  writeFileSync(file, one.content);
  const samples: Sample[] = [];
  const reader = createTraceFileReader({}, (sample) => samples.push(sample));
  await readTextFile(
    file,
    (text) => reader.push(text),
    () => {},
  );
  reader.finish();
  return samples;
}

describe('cli stages reads what instruments export', () => {
  it.each(INSTRUMENT_EXPORTS.map((one) => [one.name, one] as const))('%s', async (_name, one) => {
    const samples = await readExport(one);
    const written = exportedRun(one.samples, one.stepS);
    expect(samples).toHaveLength(one.samples);
    // The tick is 0.1 ms; a time in minutes or days is rounded by the file itself.
    const off = samples.map((sample, i) => Math.abs(sample.tick / 10_000 - written[i]!.t));
    expect(Math.max(...off)).toBeLessThan(0.0011);
    const missed = samples.map((sample, i) => Math.abs((sample.amps ?? 99) - written[i]!.a));
    expect(Math.max(...missed)).toBeLessThanOrEqual(one.countA + 1e-9);
    if (one.hasVolts) {
      const volts = samples.map((sample, i) => Math.abs((sample.volts ?? 99) - written[i]!.v));
      expect(Math.max(...volts)).toBeLessThan(0.0051);
    } else expect(samples.every((sample) => sample.volts === null)).toBe(true);
  });

  it('names the same stages whatever the file looks like', async () => {
    const runs = exportedRun(800, 0.05);
    const plain = classifyTrace(
      {
        ticks: Float64Array.from(runs, (r) => Math.round(r.t * 10_000)),
        volts: Float64Array.from(runs, (r) => r.v),
        amps: Float64Array.from(runs, (r) => r.a),
        regulation: new Uint8Array(runs.length),
      },
      { ...UNKNOWN_BOARD, runningA: 0.44 },
    );
    const names = ['off', 'flat-low', 'stepping', 'running'];
    expect(plain.stages.map((s) => s.stage)).toEqual(names);
    for (const one of INSTRUMENT_EXPORTS.filter((x) => x.hasVolts)) {
      const tracker = createTracker({ ...UNKNOWN_BOARD, runningA: 0.44 });
      for (const sample of await readExport(one)) tracker.push(sample);
      const stages = tracker.finish().stages;
      expect(
        stages.map((s) => s.stage),
        one.name,
      ).toEqual(names);
    }
  });
});
