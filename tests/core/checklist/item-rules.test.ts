import { describe, expect, it } from 'vitest';
import {
  itemDoneByPart,
  itemsDoneByRuns,
  lastFitAt,
  nextItem,
  whyNotByHand,
} from '../../../core/checklist/item-rules.ts';

const item = (step: string, needs: 'run' | 'part' = 'run', state: 'open' | 'done' = 'open') => ({
  id: step,
  step,
  needs,
  state,
});
const ITEMS = [item('first-run'), item('second-run'), item('wakes-three-times')];
const run = (startedAt: number, stage: 'running' | 'stepping' = 'running') => ({
  kind: 'powered' as const,
  startedAt,
  endedAt: startedAt + 10,
  samples: 5,
  reach: { stage, heldA: 1, heldW: null, share: null },
});
const fittedAt = (at: number) => ({ action: 'fitted' as const, at });

describe('what runs do', () => {
  it('is nothing while a run goes on, holds no sample, or was not powered', () => {
    const none = [
      { ...run(0), endedAt: null },
      { ...run(0), samples: 0 },
      { ...run(0), kind: 'idle' as const },
    ];
    expect(itemsDoneByRuns(ITEMS, none, [])).toEqual([]);
  });

  it('is the first run, then a second that began after the newest fit', () => {
    expect(itemsDoneByRuns(ITEMS, [run(100)], [])).toEqual(['first-run']);
    expect(itemsDoneByRuns(ITEMS, [run(100)], [fittedAt(200)])).toEqual(['first-run']);
    expect(itemsDoneByRuns(ITEMS, [run(100), run(300)], [fittedAt(200)])).toContain('second-run');
    expect(itemsDoneByRuns(ITEMS, [run(300)], [fittedAt(200), fittedAt(400)])).not.toContain(
      'second-run',
    );
  });

  it('proves the repair by three that reached running since the fit', () => {
    const after = [run(300), run(400), run(500, 'stepping')];
    expect(itemsDoneByRuns(ITEMS, [run(100), ...after], [fittedAt(200)])).not.toContain(
      'wakes-three-times',
    );
    expect(itemsDoneByRuns(ITEMS, [...after, run(600)], [fittedAt(200)])).toContain(
      'wakes-three-times',
    );
  });

  it('leaves alone what is done already', () => {
    expect(itemsDoneByRuns([item('first-run', 'run', 'done')], [run(1)], [])).toEqual([]);
  });
});

describe('the step to do next', () => {
  const steps = [
    { needs: 'confirm', state: 'done' },
    { needs: 'run', state: 'open' },
    { needs: 'reading', state: 'open' },
  ] as const;
  it('is the first open one', () => {
    expect(nextItem(steps, false)).toBe(steps[1]);
    expect(nextItem(steps.slice(0, 1), false)).toBeNull();
  });

  it('passes over a run that is under way, to what is measured during it', () => {
    expect(nextItem(steps, true)).toBe(steps[2]);
    expect(nextItem(steps.slice(0, 2), true)).toBe(steps[1]);
  });
});

describe('what a part does', () => {
  const steps = [item('part-lifted', 'part'), item('part-fitted', 'part', 'done')];
  it('is the step of its own action, once', () => {
    expect(itemDoneByPart(steps, 'lifted')).toBe('part-lifted');
    expect(itemDoneByPart(steps, 'fitted')).toBeNull();
    expect(lastFitAt([{ action: 'lifted', at: 9 }, fittedAt(3), fittedAt(7)])).toBe(7);
    expect(lastFitAt([{ action: 'lifted', at: 9 }])).toBeNull();
  });
});

describe('a tick by hand', () => {
  it('does for a confirmation, needs words for a note, and no more', () => {
    expect(whyNotByHand({ needs: 'confirm', readings: [] }, '')).toBeNull();
    expect(whyNotByHand({ needs: 'note', readings: [] }, '  ')).toMatch(/few words/);
    expect(whyNotByHand({ needs: 'note', readings: [] }, 'seen')).toBeNull();
    for (const needs of ['reading', 'run', 'part'] as const) {
      expect(whyNotByHand({ needs, readings: [] }, 'trust me')).not.toBeNull();
    }
  });
});
