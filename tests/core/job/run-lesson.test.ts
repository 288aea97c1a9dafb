import { describe, expect, it } from 'vitest';
import { hasRun, isFlatDraw, levelStretch, wokeAfterS } from '../../../core/job/run-lesson.ts';
import type { Stage, StageId } from '../../../core/stages/stage.ts';
import { report, samples } from '../../support/ledger-samples.ts';

const stage = (id: StageId, startS: number, endS: number, meanA = 0.4): Stage => ({
  ...report().stages[0]!,
  stage: id,
  startS,
  endS,
  meanA,
});

describe('the stretch that shows the level', () => {
  it('is the longest that was running', () => {
    const stages = [stage('running', 0, 5), stage('stalled', 5, 90), stage('running', 90, 99)];
    expect(levelStretch(report({ stages }))?.startS).toBe(90);
  });

  it('is the longest at the level held when no running level was known', () => {
    const stages = [stage('flat-low', 0, 60, 0.02), stage('stalled', 60, 80, 0.41)];
    expect(levelStretch(report({ stages }))?.startS).toBe(60);
  });

  it('is none when nothing was held', () => {
    const reach = { stage: 'off', heldA: null, heldW: null, share: null } as const;
    expect(levelStretch(report({ reach, stages: [stage('off', 0, 9, 0)] }))).toBeNull();
  });
});

describe('the time to wake', () => {
  const on = { mark: 'output-on', atS: 1, text: '' } as const;
  const asked = { mark: 'wake-request', atS: 4, text: '' } as const;
  it('counts from the newest wake request, or from output on', () => {
    const stages = [stage('running', 9, 20)];
    expect(wokeAfterS(report({ stages, marks: [on] }))).toBe(8);
    expect(wokeAfterS(report({ stages, marks: [on, asked] }))).toBe(5);
  });

  it('is not known without either, or without running', () => {
    expect(wokeAfterS(report({ marks: [] }))).toBeNull();
    expect(wokeAfterS(report({ stages: [stage('stalled', 2, 9)], marks: [on] }))).toBeNull();
  });
});

describe('a flat draw', () => {
  it('spreads by no more than a fiftieth of its mean', () => {
    expect(isFlatDraw(samples(200, { amps: (i) => 0.18 + 0.002 * Math.sin(i) }))).toBe(true);
    expect(isFlatDraw(samples(200, { amps: (i) => 0.5 + 0.06 * Math.sin(i) }))).toBe(false);
  });

  it('is not told from a handful of samples', () => {
    expect(isFlatDraw(samples(19))).toBeNull();
    expect(isFlatDraw(samples(50, { amps: () => Number.NaN }))).toBeNull();
  });
});

describe('whether a run shows its board at work', () => {
  const reportOf = (...stages: readonly [StageId, number, number][]) =>
    report({ stages: stages.map(([id, startS, endS]) => stage(id, startS, endS)) });

  it('is told by three seconds of running', () => {
    expect(hasRun(reportOf(['stepping', 0, 2], ['running', 2, 9]))).toBe(true);
    expect(hasRun(reportOf(['stepping', 0, 2], ['running', 2, 4]))).toBe(false);
  });

  it('is never told by a level that the supply held, whatever a first sample looked like', () => {
    expect(hasRun(reportOf(['flat-high', 1, 1.05], ['limited', 1.05, 8]))).toBe(false);
    expect(hasRun(reportOf(['running', 0, 4], ['limited', 4, 12]))).toBe(false);
  });
});
