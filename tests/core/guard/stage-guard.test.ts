import { describe, expect, it } from 'vitest';
import { stageGuard } from '../../../core/guard/stage-guard.ts';
import type { Stage } from '../../../core/stages/stage.ts';

const stage = (name: Stage['stage'], startS: number, endS: number, periodS = 2): Stage => ({
  stage: name,
  startS,
  endS,
  meanA: 0.1,
  meanV: 5,
  confidence: 0.9,
  reason: 'the draw returned to 0.002 A',
  periodS: name === 'cycling' ? periodS : null,
  final: false,
});

describe('the stage guard', () => {
  it('goes off when the board has looped three times', () => {
    const guard = stageGuard([{ on: 'cycling', times: 3, action: 'off' }]);
    expect(guard.see([stage('cycling', 1, 6.9)])).toEqual([]);
    const [trip] = guard.see([stage('cycling', 1, 7)]);
    expect(trip?.action).toBe('off');
    expect(trip?.text).toBe(
      'Cycling 3 times with a period of 2.00 s; the guard allows fewer than 3',
    );
  });

  it('trips once a stage, even while its start still moves, and again for the next', () => {
    const guard = stageGuard([{ on: 'stalled', forS: 10, action: 'alert' }]);
    expect(guard.see([stage('stalled', 0, 11)])).toHaveLength(1);
    expect(guard.see([stage('stalled', 0.4, 15)])).toEqual([]);
    expect(guard.see([stage('stalled', 0.4, 15), stage('stepping', 15, 17)])).toEqual([]);
    expect(guard.see([stage('stalled', 17, 28)])).toHaveLength(1);
  });

  it('looks only at what the draw does now', () => {
    const guard = stageGuard([{ on: 'limited', forS: 1, action: 'off' }]);
    expect(guard.see([stage('limited', 0, 5), stage('running', 5, 9)])).toEqual([]);
    expect(guard.see([])).toEqual([]);
  });

  it('tells a fall with the reason of the stage', () => {
    const guard = stageGuard([{ on: 'fell-back', action: 'alert' }]);
    expect(guard.see([stage('fell-back', 4, 5)])[0]?.text).toBe(
      'Fell back at 4.0 s: the draw returned to 0.002 A',
    );
  });
});
