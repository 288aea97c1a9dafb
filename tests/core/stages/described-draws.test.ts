import { describe, expect, it } from 'vitest';
import { classifyTrace } from '../../../core/stages/tracker.ts';
import { describedCorpus } from '../../support/described-boards.ts';
import { flat, type Stretch, settle, square } from '../../support/drawn-draws.ts';
import { pretendCorpus } from '../../support/pretend-corpus.ts';
import { namesOf, readDraw } from '../../support/read-draw.ts';
import { StageScore } from '../../support/stage-score.ts';

const stage = (
  label: Stretch['label'],
  seconds: number,
  amps: number | Stretch['amps'],
  volts?: number,
): Stretch => ({
  label,
  seconds,
  amps: typeof amps === 'number' ? flat(amps) : amps,
  ...(volts === undefined ? {} : { volts }),
});
const off = stage('off', 2, 0, 0);
const boots = [
  off,
  stage('flat-low', 1.5, 0.02, 12),
  stage('stepping', 1.5, 0.12),
  stage('stepping', 1.5, 0.3),
];

function scoreOf(draws: Iterable<Parameters<typeof scoreOne>[0]>, alike = false): StageScore {
  const score = new StageScore(alike);
  for (const one of draws) scoreOne(one, score);
  return score;
}
type Drawn = ReturnType<typeof describedCorpus> extends Generator<infer T> ? T : never;
function scoreOne(one: Drawn & { seen?: boolean }, score: StageScore): void {
  if (one.seen === false) return;
  score.add(one.draw, classifyTrace(one.draw.columns, one.settings), 1 / one.hz);
}

// Common practice, no source: what technicians describe, and what was seen on real traces.
describe('draws as they are described', () => {
  it('sees a reset of 1.3 s on a running board, read 50 times a second', () => {
    const dip = [0.2, 0.5, 0.67, 0.53, 0.6, 0.4].map((share) =>
      stage('stepping', 0.2, 0.5 * share),
    );
    const draw = [...boots, stage('running', 8, 0.5), ...dip, stage('running', 8, 0.5)];
    for (const hz of [50, 200]) {
      const report = readDraw(draw, { settings: { runningA: 0.5 }, logging: { hz } });
      expect(namesOf(report)).toEqual([
        'off',
        'flat-low',
        'stepping',
        'running',
        'stepping',
        'running',
      ]);
      expect(report.stages[4]!.reason).toContain('restart');
      expect(report.stages[4]!.startS).toBeCloseTo(14.5, 1);
    }
  });

  it('does not take a fan on a stalled board for work when no running level is known', () => {
    const fan = stage('stalled', 15, square(0.3, 0.318, 2, 0.5));
    const report = readDraw([...boots.slice(0, 3), fan]);
    expect(namesOf(report).at(-1)).toBe('stalled');
  });

  it('takes a long flat wait for a stall when the draw climbs on after it, level known or not', () => {
    const draw = [
      ...boots,
      stage('stalled', 15, 0.4),
      stage('stepping', 1.5, 0.6),
      stage('running', 12, 0.8),
    ];
    const names = namesOf(readDraw(draw));
    expect(names.slice(0, 5)).toEqual(['off', 'flat-low', 'stepping', 'stalled', 'stepping']);
  });

  it('does not take a slow leak for work', () => {
    const leak = stage('creeping', 30, (_t, u) => 0.02 + 0.04 * u);
    const names = namesOf(readDraw([off, stage('flat-low', 10, 0.02, 12), leak]));
    expect(names).toEqual(['off', 'flat-low', 'creeping']);
  });

  it('does not take the drop of long leads for a current limit', () => {
    const leads = (amps: number) => 12 - 0.14 * amps;
    const draw = [
      off,
      stage('flat-low', 1.5, 0.1, 12),
      stage('stepping', 2, 5, leads(5)),
      stage('flat-high', 12, 18, leads(18)),
    ];
    const report = readDraw(draw, { settings: { runningA: 11, setV: 12 } });
    expect(namesOf(report).at(-1)).toBe('flat-high');
  });

  it('takes nothing drawn at the end of a log without volts for output off, and says so', () => {
    const draw = [...boots, stage('running', 8, 0.5), { ...off, seconds: 3 }];
    const report = readDraw(draw, { settings: { runningA: 0.5 }, logging: { volts: false } });
    expect(namesOf(report).at(-1)).toBe('off');
    expect(report.stages.at(-1)!.confidence).toBeLessThan(0.7);
    expect(report.stages.at(-1)!.reason).toContain('no volts column');
  });

  it('keeps a fall to nothing that is watched for long a fall, and doubts it without volts', () => {
    const draw = [...boots, stage('running', 8, 0.5), stage('fell-back', 12, 0)];
    const report = readDraw(draw, { settings: { runningA: 0.5 }, logging: { volts: false } });
    expect(namesOf(report).at(-1)).toBe('fell-back');
    expect(report.stages.at(-1)!.confidence).toBeLessThan(0.7);
  });

  it('follows a loop across readings that are missing', () => {
    const loop = Array.from({ length: 7 }, () => [
      stage('cycling', 1.2, 0.3),
      stage('cycling', 1, 0.02),
    ]).flat();
    const gaps = [{ atS: 11.5, s: 2 }];
    const draw = [off, stage('flat-low', 1.6, 0.02, 12), ...loop];
    const report = readDraw(draw, { settings: { runningA: 0.6 }, logging: { gaps } });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'cycling']);
    expect(report.stages[2]!.periodS).toBeCloseTo(2.2, 1);
  });

  it('reads a staircase once a second', () => {
    const slow = [
      { ...off, seconds: 4 },
      stage('flat-low', 2, 0.03, 12),
      stage('stepping', 2, settle(0.1, 0.12, 0.1)),
      stage('stepping', 2, 0.3),
      stage('running', 15, 0.5),
    ];
    const report = readDraw(slow, {
      settings: { runningA: 0.5 },
      logging: { hz: 1, noiseA: 0.004 },
    });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'running']);
  });

  it('takes a draw that climbs past its running level and stays, busy, for a high one', () => {
    const busyHigh: Stretch['amps'] = (t) => 0.95 + 0.09 * Math.sin(7 * t) * Math.sin(1.3 * t);
    const draw = [...boots, stage('stepping', 1, 0.57), stage('flat-high', 20, busyHigh)];
    const report = readDraw(draw, { settings: { runningA: 0.47 } });
    expect(namesOf(report)).toEqual(['off', 'flat-low', 'stepping', 'flat-high']);
  });
});

describe('the corpora beside the one that thresholds were looked at with', () => {
  it('names described draws of seeds and shapes kept apart', () => {
    const score = scoreOf(describedCorpus(900, 2, true));
    expect(score.macroF1()).toBeGreaterThan(0.95);
    expect(score.near / score.boundaries).toBeGreaterThan(0.93);
    const blind = scoreOf(describedCorpus(900, 2, false), true);
    expect(blind.macroF1()).toBeGreaterThan(0.93);
  });

  it('names runs of the pretend bench by the states of its rails', () => {
    const score = scoreOf(pretendCorpus(700, 20));
    expect(score.macroF1()).toBeGreaterThan(0.85);
  });
});
