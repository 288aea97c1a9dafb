import { describe, expect, it } from 'vitest';
import type { ChecklistItem } from '../../../core/job/job.ts';
import { createProbePoints } from '../../../electron/bench/probe-points.ts';

const step = (id: string, part: Partial<ChecklistItem> = {}): ChecklistItem => ({
  id,
  step: id,
  phase: 'Rails',
  title: id,
  needs: 'reading',
  quantity: 'volts',
  place: id,
  caution: null,
  gate: 'nothing',
  beforePower: false,
  doneBy: '',
  state: 'open',
  at: null,
  reason: '',
  readings: [],
  ...part,
});
const ITEMS = [step('a'), step('note', { needs: 'note', quantity: null }), step('b'), step('c')];

describe('the points of a list', () => {
  it('are the open steps that ask for a reading, in order', () => {
    const points = createProbePoints(ITEMS, null);
    expect(points.next?.itemId).toBe('a');
    expect(points.left).toBe(3);
    points.refresh([step('a', { state: 'done' }), ...ITEMS.slice(1)]);
    expect(points.next?.itemId).toBe('b');
  });

  it('can be chosen, in an order of their own', () => {
    const points = createProbePoints(ITEMS, ['c', 'a', 'gone']);
    expect([points.next?.itemId, points.left]).toEqual(['c', 2]);
  });

  it('are passed over, and come back for an undone reading', () => {
    const points = createProbePoints(ITEMS, null);
    points.skip();
    expect(points.next?.itemId).toBe('b');
    points.backTo('a');
    expect([points.next?.itemId, points.left]).toEqual(['a', 3]);
    points.refresh([step('a', { state: 'done' }), ...ITEMS.slice(1)]);
    expect(points.next?.itemId).toBe('b');
  });

  it('end', () => {
    const points = createProbePoints([step('a')], null);
    points.skip();
    points.skip();
    expect([points.next, points.left]).toEqual([null, 0]);
  });
});
