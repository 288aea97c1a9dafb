import { describe, expect, it } from 'vitest';
import { type ComparedRun, compareRuns } from '../../../core/match/compare-runs.ts';
import type { Mark, Step } from '../../../core/stages/stage.ts';
import { report } from '../../support/ledger-samples.ts';

const NO_BREAK = '\u00a0';
const steps: readonly Step[] = [
  { atS: 2, fromA: 0.02, toA: 0.11 },
  { atS: 4, fromA: 0.11, toA: 0.24 },
  { atS: 6, fromA: 0.24, toA: 0.45 },
];
const mark = (name: Mark['mark'], atS: number): Mark => ({ mark: name, atS, text: '' });
const running = (startS: number, meanA: number) => ({
  ...report().stages[0]!,
  startS,
  endS: 30,
  meanA,
});

function run(id: string, part: Parameters<typeof report>[0] = {}, feedV = 12): ComparedRun {
  return {
    id,
    feedV,
    report: report({
      steps,
      marks: [mark('output-on', 1)],
      stages: [running(6, 0.45)],
      reach: { stage: 'running', heldA: 0.45, heldW: null, share: null },
      peakA: 0.5,
      ...part,
    }),
  };
}
const words = (runs: readonly ComparedRun[], by: Parameters<typeof compareRuns>[1]) =>
  compareRuns(runs, by).map(({ lines }) => lines.map((line) => line.replaceAll(NO_BREAK, ' ')));

describe('compareRuns', () => {
  it('has nothing to say of runs that do the same', () => {
    expect(words([run('a'), run('b')], { by: 'output-on' })).toEqual([[], []]);
    expect(compareRuns([], { by: 'output-on' })).toEqual([]);
  });

  it('says which step came later and by how much it was lower', () => {
    const late = run('b', {
      steps: [steps[0]!, { atS: 5.8, fromA: 0.11, toA: 0.2 }, { atS: 6, fromA: 0.2, toA: 0.45 }],
    });
    expect(words([run('a'), late], { by: 'output-on' })[1]).toEqual([
      'second step 1.8 s later, 40 mA lower',
    ]);
  });

  it('counts from the moment that runs are aligned at, not from their start', () => {
    const shifted = run('b', {
      marks: [mark('output-on', 4)],
      steps: steps.map((step) => ({ ...step, atS: step.atS + 3 })),
      stages: [running(9, 0.45)],
    });
    const found = compareRuns([run('a'), shifted], { by: 'output-on' });
    expect(found.map(({ zeroS, lines }) => ({ zeroS, lines }))).toEqual([
      { zeroS: 1, lines: [] },
      { zeroS: 4, lines: [] },
    ]);
    const byStep = compareRuns([run('a'), shifted], { by: 'step', step: 1 });
    expect(byStep.map(({ zeroS }) => zeroS)).toEqual([4, 7]);
  });

  it('says when a run has no such moment instead of laying it anywhere', () => {
    const asked = run('a', { marks: [mark('wake-request', 2)] });
    const [, other] = compareRuns([asked, run('b')], { by: 'wake-request' });
    expect(other!.zeroS).toBeNull();
    expect(other!.lines[0]).toBe('has no wake request: laid at its start');
  });

  it('names a step that is missing, and one that is new', () => {
    const short = run('b', { steps: [steps[0]!, steps[2]!] });
    expect(words([run('a'), short], { by: 'output-on' })[1]).toContain(
      'no second step (the first run goes to 0.24 A there)',
    );
    const falls = run('b', { steps: [...steps, { atS: 8, fromA: 0.45, toA: 0.2 }] });
    expect(words([run('a'), falls], { by: 'output-on' })[1]).toContain(
      'one step more: its fourth, 0.45 A to 0.20 A at 7.0 s',
    );
  });

  it('compares watts when the feed volts differ, and says so first', () => {
    const half = run(
      'b',
      {
        steps: steps.map(({ atS, fromA, toA }) => ({ atS, fromA: fromA / 2, toA: toA / 2 })),
        reach: { stage: 'running', heldA: 0.225, heldW: null, share: null },
        peakA: 0.25,
      },
      24,
    );
    expect(words([run('a'), half], { by: 'output-on' })[1]).toEqual([
      'fed at 24.0 V instead of 12.0 V: compared in watts',
    ]);
  });

  it('tells where a run ended otherwise, what it held, and marks that only one has', () => {
    const stalled = run('b', {
      steps: steps.slice(0, 2),
      stages: [{ ...running(4, 0.24), stage: 'stalled' }],
      reach: { stage: 'stepping', heldA: 0.24, heldW: null, share: null },
      peakA: 0.9,
      marks: [mark('output-on', 1), mark('inrush', 1.1)],
    });
    const lines = words([run('a'), stalled], { by: 'output-on' })[1]!;
    expect(lines).toEqual([
      'ends stalled where the first ends running',
      'holds 240 mA, 210 mA less',
      'no third step (the first run goes to 0.45 A there)',
      'peak 400 mA higher',
      'has an inrush',
    ]);
  });
});
