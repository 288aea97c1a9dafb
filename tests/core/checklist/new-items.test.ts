import { describe, expect, it } from 'vitest';
import { itemsAfterFit, itemsAtIntake, pointsBefore } from '../../../core/checklist/new-items.ts';
import { templateFor, templates } from '../../../core/checklist/template.ts';
import type { Reading } from '../../../core/job/job.ts';

const reading = (part: Partial<Reading>): Reading => ({
  id: 'r',
  jobId: 'j',
  itemId: null,
  runId: null,
  quantity: 'ohms',
  value: 1,
  overload: false,
  decimals: 2,
  place: 'VIN',
  expectedLow: null,
  expectedHigh: null,
  source: 'meter',
  takenAt: 100,
  ...part,
});

describe('the items a job begins with', () => {
  it('are those of its template, open, without the steps that a part will call for', () => {
    for (const template of templates) {
      const items = itemsAtIntake(template, 'no');
      expect(items.every((item) => item.state === 'open' && item.at === null)).toBe(true);
      expect(items.some((item) => item.step === 'second-run')).toBe(false);
      const positions = items.map((item) => item.position);
      expect(positions).toEqual([...positions].sort((a, b) => a - b));
    }
  });

  it('wash a board that got wet, and only that one unless the template says so', () => {
    const steps = (liquid: 'yes' | 'no' | 'unknown', key = 'no-picture') =>
      itemsAtIntake(templateFor(key), liquid).map((item) => item.step);
    expect(steps('yes')).toContain('dried-and-looked');
    expect(steps('no')).not.toContain('dried-and-looked');
    expect(steps('unknown')).not.toContain('dried-and-looked');
    expect(steps('no', 'liquid')).toContain('dried-and-looked');
  });
});

describe('the items a fitted part calls for', () => {
  const template = templateFor('does-not-turn-on');

  it('are the points measured with the board off before it, each once', () => {
    const points = pointsBefore(
      [
        reading({ place: 'VIN' }),
        reading({ place: 'vin', takenAt: 150 }),
        reading({ place: 'VIN', quantity: 'diode' }),
        reading({ place: 'VIN', quantity: 'volts' }),
        reading({ place: '' }),
        reading({ place: 'late', takenAt: 201 }),
      ],
      200,
    );
    expect(points).toEqual([
      { quantity: 'ohms', place: 'VIN' },
      { quantity: 'diode', place: 'VIN' },
    ]);
  });

  it('come before the second run, and hold power back', () => {
    const items = itemsAfterFit(template, [reading({}), reading({ place: 'CORE' })], 200);
    expect(items.map(({ step, place, gate }) => ({ step, place, gate }))).toEqual([
      { step: 'fit-looked-at', place: '', gate: 'power' },
      { step: 'same-points-again', place: 'VIN', gate: 'power' },
      { step: 'same-points-again', place: 'CORE', gate: 'power' },
      { step: 'second-run', place: '', gate: 'closing' },
    ]);
    const positions = items.map((item) => item.position);
    expect(new Set(positions).size).toBe(positions.length);
    expect(positions).toEqual([...positions].sort((a, b) => a - b));
  });

  it('ask for the input when nothing was measured before', () => {
    const again = itemsAfterFit(template, [], 200).filter((item) => item.needs === 'reading');
    expect(again).toMatchObject([{ quantity: 'ohms', place: 'Input' }]);
  });

  it('ask for the volts from before again, after the second run', () => {
    const volts = reading({ quantity: 'volts', place: 'Main rail', value: 3.1 });
    const items = itemsAfterFit(template, [reading({}), volts], 200);
    expect(items.map(({ step, quantity }) => [step, quantity])).toEqual([
      ['fit-looked-at', null],
      ['same-points-again', 'ohms'],
      ['second-run', null],
      ['same-volts-again', 'volts'],
    ]);
    expect(items.at(-1)).toMatchObject({
      title: 'Same point again, powered: Main rail',
      gate: 'closing',
    });
  });

  it('keep their place between the template’s own steps however many points there were', () => {
    const many = Array.from({ length: 150 }, (_, i) => reading({ place: `TP${i}` }));
    const items = itemsAfterFit(template, many, 200);
    const points = items.filter((item) => item.step === 'same-points-again');
    expect(points).toHaveLength(99);
    expect(points.at(-1)!.position).toBeLessThan(items.at(-1)!.position);
  });
});
