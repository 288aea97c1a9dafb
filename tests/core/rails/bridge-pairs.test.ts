import { describe, expect, it } from 'vitest';
import { bridgePairs } from '../../../core/rails/bridge-pairs.ts';
import { NO_PRIOR } from '../../../core/rails/fault.ts';
import { injectionReach } from '../../../core/rails/injection-reach.ts';
import { judgeReadings } from '../../../core/rails/judge-readings.ts';
import { USUAL_NEXT } from '../../../core/rails/next-measurements.ts';
import { prepareRails } from '../../../core/rails/rail-model.ts';
import { walkRails } from '../../../core/rails/walk-rails.ts';
import { reading, sampleBoard } from './sample-board.ts';

const judge = (...texts: string[]) =>
  judgeReadings(
    sampleBoard,
    texts.map((text) => reading(text)),
  );

describe('bridgePairs', () => {
  it('holds two rails whose ohms between were measured, the lower first', () => {
    expect(bridgePairs(sampleBoard, judge('AON_5V-S_3V3 0.4ohm'))).toEqual([
      { low: 'S_3V3', high: 'AON_5V' },
    ]);
  });

  it('leaves a rail and its feed to the tree', () => {
    expect(bridgePairs(sampleBoard, judge('CORE-MAIN 0.4ohm'))).toEqual([]);
  });

  it('thinks of what a rail that is too high may have got its volts from', () => {
    const pairs = bridgePairs(sampleBoard, judge('S_3V3 4.9V'));
    expect(pairs).toContainEqual({ low: 'S_3V3', high: 'AON_5V' });
    expect(pairs.some(({ high }) => high === 'MAIN')).toBe(false);
  });

  it('thinks of none while nothing is high and nothing between was read', () => {
    expect(bridgePairs(sampleBoard, judge('S_3V3 3.3V', 'MEM 0V'))).toEqual([]);
  });

  it('lets a bridge be found, whichever rail of the two was named first', () => {
    const judged = judge('S_3V3 4.9V', 'AON_5V 4.95V', 'AON_5V-S_3V3 0.3ohm');
    const model = prepareRails(sampleBoard, 'on', NO_PRIOR, bridgePairs(sampleBoard, judged));
    const [first] = walkRails(model, judged, USUAL_NEXT).suspects;
    expect(first?.faults[0]?.key).toBe('joined:S_3V3:AON_5V');
  });

  it('counts to what injected current reaches', () => {
    const { reach } = injectionReach(sampleBoard, 'S_3V3', judge('CORE-S_3V3 0.3ohm'));
    expect(reach).toContainEqual(expect.objectContaining({ name: 'CORE', standsV: 0.85 }));
  });
});
