import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { MARK_IDS, STAGE_IDS } from '../../../core/stages/stage.ts';
import { runCli } from './run-cli.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-stages-'));
afterAll(() => rmSync(folder, { recursive: true }));

function fileOf(name: string, content: string | Uint8Array): string {
  const file = path.join(folder, name);
  writeFileSync(file, content);
  return file;
}

/** Off for a second, a flat low draw, two steps, then a busy board: 20 samples a second. */
function healthyRun(): string {
  const rows = Array.from({ length: 600 }, (_, i) => {
    const t = i / 20;
    const busy = 0.42 + ((i * 37) % 11) / 200;
    const amps = t < 1 ? 0 : t < 3 ? 0.019 : t < 5 ? 0.11 : t < 7 ? 0.23 : busy;
    const noise = ((i * 7919) % 3) / 1000;
    return `${t.toFixed(3)},12.00${i % 2},${(amps + noise).toFixed(3)}`;
  });
  return `time,volts,amps\n${rows.join('\n')}\n`;
}

const number = z.number();
const answer = z.strictObject({
  samples: number.int(),
  durationS: number,
  reach: z.strictObject({
    stage: z.enum(STAGE_IDS),
    heldA: number.nullable(),
    share: number.nullable(),
  }),
  marks: z.array(z.strictObject({ mark: z.enum(MARK_IDS), atS: number })),
  stages: z.array(
    z.strictObject({
      stage: z.enum(STAGE_IDS),
      startS: number,
      endS: number,
      meanA: number.nullable(),
      confidence: number.min(0).max(1),
      reason: z.string().min(10),
    }),
  ),
  steps: z.array(z.strictObject({ atS: number, fromA: number, toA: number })),
  energyWh: number.nullable(),
  chargeAh: number.nullable(),
  peakA: number.nullable(),
});

describe('cli stages', () => {
  it('prints one JSON object of exactly the agreed keys, and nothing else', async () => {
    const file = fileOf('healthy.csv', healthyRun());
    const { code, out, err } = await runCli(['stages', file, '--json', '--running-a', '0.44']);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out.trimEnd()).not.toContain('\n');
    const report = answer.parse(JSON.parse(out));
    expect(report.samples).toBe(600);
    expect(report.durationS).toBeCloseTo(29.95, 6);
    expect(report.reach.stage).toBe('running');
    expect(report.peakA).toBeCloseTo(0.472, 6);
    expect(report.stages[0]!.startS).toBe(0);
    expect(report.stages.at(-1)).toMatchObject({ stage: 'running' });
    expect(report.stages.at(-1)!.endS).toBeCloseTo(29.95, 1);
    // By hand: 1 s x 1 mA + 2 s x 20 + 2 s x 111 + 2 s x 231 + 23 s x 446 mA = 11.0 As.
    expect(report.chargeAh).toBeCloseTo(11.0 / 3600, 4);
    expect(report.energyWh! / report.chargeAh!).toBeCloseTo(12, 2);
  });

  it('adds rise time, ripple and uncertainties when they are asked for, and changes nothing else', async () => {
    const file = fileOf('detail.csv', healthyRun());
    const plain = await runCli(['stages', file, '--json', '--running-a', '0.44']);
    const { out } = await runCli(['stages', file, '--json', '--detail', '--running-a', '0.44']);
    const report = JSON.parse(out);
    const running = report.stages.at(-1);
    // The busy level goes through eleven values 5 mA apart: their rms about the middle is 16 mA.
    expect(running.rippleA).toBeCloseTo(0.0158, 3);
    expect(running.plusMinusA).toBeGreaterThan(0.0003);
    expect(running.plusMinusA).toBeLessThan(0.002);
    // Twenty samples a second: a step is seen within one interval of 50 ms.
    for (const step of report.steps) expect(step.riseS).toBeCloseTo(0.05, 6);
    for (const stage of report.stages) {
      for (const key of ['plusMinusA', 'rippleA', 'periodS']) delete stage[key];
    }
    for (const step of report.steps) for (const key of ['riseS', 'plusMinusA']) delete step[key];
    expect(report).toEqual(JSON.parse(plain.out));
  });

  it('counts times from the first sample, whatever the file counts from', async () => {
    const late = healthyRun().replace(
      /^\d+\.\d+/gm,
      (time) => `2031-04-01T10:00:${(Number(time) + 20).toFixed(3).padStart(6, '0')}Z`,
    );
    const first = await runCli(['stages', fileOf('plain.csv', healthyRun()), '--json']);
    const second = await runCli(['stages', fileOf('late.csv', late), '--json']);
    expect(second.out).toBe(first.out);
  });

  it('prints a table with reasons without --json', async () => {
    const { code, out } = await runCli(['stages', fileOf('table.csv', healthyRun())]);
    expect(code).toBe(0);
    expect(out).toContain('600 samples over 30');
    expect(out).toMatch(/7\.0\d s +29\.95 s .*Running/);
  });

  it('takes columns by flags, and files of UTF-16 text', async () => {
    const text = `x,y,z\n${healthyRun().split('\n').slice(1).join('\n')}`;
    const flags = ['--time', 'x', '--volts', 'y', '--amps', 'z', '--set-v', '12', '--limit-a', '2'];
    const plain = await runCli(['stages', fileOf('xyz.csv', text), '--json', ...flags]);
    expect(plain.code).toBe(0);
    const utf16 = Buffer.from(`\ufeff${healthyRun()}`, 'utf16le');
    const wide = await runCli(['stages', fileOf('wide.csv', utf16), '--json', ...flags.slice(6)]);
    expect(wide.out).toBe(plain.out);
  });

  it('says on standard error which rows were left out', async () => {
    const file = fileOf('glued.csv', healthyRun().replace('\n5.000,', '\n4.975,12.0005.000,'));
    const { code, out, err } = await runCli(['stages', file, '--json']);
    expect(code).toBe(0);
    expect(answer.parse(JSON.parse(out)).samples).toBe(599);
    expect(err).toContain('row 102 was left out (4 cells instead of 3)');
  });

  it.each([
    ['text in numbers', 'time,volts,amps\n0,12,0.1\n1,12,abc\n', 'row 3, column 3 "amps"'],
    ['times that go back', 'time,volts,amps\n0,1,1\n2,1,1\n1,1,1\n', 'row 4, column 1 "time"'],
    ['missing columns', 'time,volts\n0,12\n1,12\n', 'column for amps'],
    ['0 rows', 'time,volts,amps\n', 'row 2, column 1 "time"'],
    ['an empty file', '', 'row 1, column 1'],
  ])('ends with 2 and one line that names row and column for %s', async (name, text, place) => {
    const { code, out, err } = await runCli(['stages', fileOf(`${name}.csv`, text), '--json']);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(place);
    expect(err.trimEnd()).not.toContain('\n');
  });

  it('ends with 2 and one line for a file that is not there, a folder, and bad arguments', async () => {
    const file = fileOf('good.csv', healthyRun());
    for (const argv of [
      ['/nowhere/at/all.csv'],
      [folder],
      [],
      [file, '--running-a', 'much'],
      [file, '--limit-a', '-1'],
      [file, '--wrong'],
      [file, '--amps', 'nothing'],
    ]) {
      const { code, out, err } = await runCli(['stages', ...argv]);
      expect(code).toBe(2);
      expect(out).toBe('');
      expect(err.trimEnd()).not.toContain('\n');
      expect(err.length).toBeGreaterThan(20);
    }
  });
});
