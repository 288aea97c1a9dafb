import { describe, expect, it } from 'vitest';
import type { InjectionInput } from '../../../core/shorts/injection.ts';
import { checkInjectionVolts, planInjection } from '../../../core/shorts/plan-injection.ts';

// Starts, steps and cautions are common practice, no source; power is I squared R.

const main: InjectionInput = {
  rail: 'MAIN',
  isCore: false,
  reach: [{ name: 'MAIN', standsV: 12.6, how: 'directly' }],
  joints: [],
  cellAttached: false,
  ohmToGround: 0.3,
  leadOhm: 0.1,
  mostA: null,
  supply: { leastV: 0, mostV: 30, mostA: 5 },
};
const plan = (more: Partial<InjectionInput>) => planInjection({ ...main, ...more });
const refusals = (more: Partial<InjectionInput>) => {
  const made = plan(more);
  return made.ok ? [] : made.refusals.map(({ why }) => why);
};

describe('planInjection', () => {
  it('starts low, ends at what the lowest thing on the rail stands, and says why', () => {
    const made = plan({
      reach: [
        ...main.reach,
        { name: 'CORE', standsV: 0.7, how: 'should its upper switch be shorted' },
      ],
    });
    expect(made).toMatchObject({
      ok: true,
      startV: 0.3,
      ceilingV: 0.7,
      guard: { mostV: 0.7, mostA: 5 },
    });
    expect(made.ok ? made.ceilingBecause : '').toMatch(/CORE/);
  });

  it('starts at 0.5 V where nothing stands less than a volt', () => {
    expect(plan({})).toMatchObject({ ok: true, startV: 0.5, ceilingV: 12.6 });
  });

  it('raises the limit step by step within the supply, with the power of each', () => {
    const made = plan({});
    if (!made.ok) throw new TypeError('refused');
    expect(made.steps.map(({ limitA }) => limitA)).toEqual([0.5, 1, 2, 3, 5]);
    const [first] = made.steps;
    expect(first?.boardW).toBeCloseTo(0.5 ** 2 * 0.3, 12);
    expect(first?.leadsW).toBeCloseTo(0.5 ** 2 * 0.1, 12);
    // 0.5 V over 0.4 ohm is 1.25 A: higher limits change nothing.
    expect(made.steps.at(-1)?.expectedA).toBeCloseTo(1.25, 12);
  });

  it('plans without ohms, and says that the current is not known', () => {
    const made = plan({ ohmToGround: null });
    expect(made).toMatchObject({ ok: true });
    expect(made.ok ? made.steps[0]?.boardW : 0).toBeNull();
    expect(made.ok ? made.reasons.join(' ') : '').toMatch(/not measured/);
  });

  it.each([
    ['a cell is attached', { cellAttached: true }, 'cell-attached'],
    ['nobody said whether one is', { cellAttached: null }, 'cell-unknown'],
    [
      'two rails are joined',
      { joints: [{ rail: 'CORE', other: 'MAIN', found: 'joined' as const }] },
      'rails-joined',
    ],
    ['a core has no joint measured at all', { isCore: true }, 'joint-not-measured'],
    [
      'a core has its joint to the main rail not measured',
      { isCore: true, joints: [{ rail: 'CORE', other: 'MAIN', found: 'not-measured' as const }] },
      'joint-not-measured',
    ],
    ['nothing is known of the rail', { reach: [] }, 'nothing-known'],
    [
      'the supply cannot go low enough',
      {
        supply: { leastV: 0.9, mostV: 30, mostA: 5 },
        reach: [{ name: 'CORE', standsV: 0.7, how: 'directly' }],
      },
      'supply-cannot-go-low',
    ],
  ])('refuses when %s', (_, more, why) => {
    expect(refusals(more)).toEqual([why]);
  });

  it('lets a core through once its joint is measured apart', () => {
    const joints = [{ rail: 'CORE', other: 'MAIN', found: 'apart' as const }];
    expect(refusals({ isCore: true, joints })).toEqual([]);
  });

  it('names everything that is in the way at once, and shows cautions either way', () => {
    expect(refusals({ cellAttached: true, isCore: true })).toEqual([
      'cell-attached',
      'joint-not-measured',
    ]);
    expect(plan({ cellAttached: true }).cautions.join(' ')).toMatch(/Hold to run/);
    expect(plan({}).cautions.join(' ')).toMatch(/150 °C/);
  });
});

describe('checkInjectionVolts', () => {
  const ceiling = { ceilingV: 0.7, ceilingBecause: 'CORE' };
  it('refuses anything above the ceiling and says what sets it', () => {
    expect(checkInjectionVolts(0.7, ceiling)).toBe(0.7);
    expect(() => checkInjectionVolts(0.71, ceiling)).toThrow(/ceiling of 0.7 V.*CORE/);
    expect(() => checkInjectionVolts(0, ceiling)).toThrow();
    expect(() => checkInjectionVolts(Number.NaN, ceiling)).toThrow();
  });
});
