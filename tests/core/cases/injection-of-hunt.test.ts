import { describe, expect, it } from 'vitest';
import { injectionOfHunt } from '../../../core/cases/injection-of-hunt.ts';
import type { BoardModel, Rail } from '../../../core/rails/board-model.ts';
import type { RailReading } from '../../../core/rails/rail-reading.ts';
import { planInjection } from '../../../core/shorts/plan-injection.ts';

const rail = (name: string, nominalV: number, more: Partial<Rail> = {}): Rail => ({
  ...{ name, nominalV, tolerance: 0.05, points: [], fedBy: [], through: 'converter' },
  ...{ enabledBy: [], states: [], expectedOhms: null, expectedDiodeV: null, isCore: false },
  ...more,
});
const board: BoardModel = {
  ...{ name: 'Heron 3', statedInputV: 19, statedLimitA: 2, runningA: null, runsFlat: null },
  rails: [
    rail('MAIN', 12.6),
    rail('SYS', 5, { fedBy: ['MAIN'] }),
    rail('CORE', 0.8, { fedBy: ['MAIN'], isCore: true }),
    rail('IO', 12.6, { fedBy: ['MAIN'], through: 'link' }),
  ],
};
const ohms = (at: string, value: number, against: string | null = null): RailReading => ({
  ...{ id: `${at}${against}`, rail: at, point: 'output', quantity: 'ohms', against, value },
  ...{ overload: false, state: null, powered: false, wires: 2, leadOhm: 0.2, accuracy: null },
  at: 1,
});
const input = (more: Partial<Parameters<typeof injectionOfHunt>[0]> = {}) =>
  injectionOfHunt({
    hunt: { rail: 'MAIN', ratings: [], mostA: null, leadOhm: 0.05 },
    ...{ board, readings: [], parts: [], cellAttached: false },
    supply: { leastV: 0, mostV: 30, mostA: 5 },
    ...more,
  });

describe('injectionOfHunt', () => {
  it('lets a core on the rail set the ceiling until ohms between the two say that it is apart', () => {
    expect(planInjection(input())).toMatchObject({ ok: true, ceilingV: 0.8 });
    const apart = [ohms('CORE', 4000, 'MAIN'), ohms('SYS', 5000, 'MAIN')];
    expect(planInjection(input({ readings: apart }))).toMatchObject({ ok: true, ceilingV: 12.6 });
  });

  it('takes the rating of a part that sits on a rail that is reached, links included', () => {
    const apart = [ohms('CORE', 4000, 'MAIN'), ohms('SYS', 5000, 'MAIN')];
    const parts = [
      { designator: 'C7', text: '22u 10V X5R 0805', rail: 'io' },
      { designator: 'C8', text: '22u 4V X5R 0805', rail: 'SYS' },
      { designator: 'R9', text: '10k 1% 0402', rail: 'MAIN' },
    ];
    const plan = planInjection(input({ readings: apart, parts }));
    expect(plan).toMatchObject({ ok: true, ceilingV: 10 });
    expect(plan.ok && plan.ceilingBecause).toMatch(/^C7, reached on IO, through the link/);
  });

  it('takes what was typed for the hunt, and the newest ohms without their leads', () => {
    const { reach, ohmToGround } = input({
      hunt: { rail: 'MAIN', ratings: [{ name: 'U3', standsV: 3.6 }], mostA: 2, leadOhm: null },
      readings: [ohms('MAIN', 9.2), ohms('MAIN', 2.3)],
    });
    expect(reach).toContainEqual({ name: 'U3', standsV: 3.6, how: 'as typed for this hunt' });
    expect(ohmToGround).toBeCloseTo(2.1, 9);
  });

  it('stops at what something on the way stands', () => {
    const plan = planInjection(
      input({ hunt: { rail: 'MAIN', ratings: [], mostA: 2.5, leadOhm: null } }),
    );
    expect(plan).toMatchObject({ ok: true, guard: { mostA: 2 } });
    expect(plan.ok && plan.reasons.join(' ')).toMatch(/No more than 2\.5\sA/);
  });

  it('holds longer where the short takes little, and shortest where nobody knows', () => {
    const holds = (readings: readonly RailReading[]) => {
      const plan = planInjection(input({ readings }));
      return plan.ok ? plan.steps.map(({ holdS }) => holdS) : [];
    };
    expect(holds([])).toEqual([5, 5, 5, 5, 5]);
    expect(holds([ohms('MAIN', 2.3)])).toEqual([30, 30, 30, 30, 30]);
  });

  it('knows of a board that nobody entered only what was typed, and takes low volts for a core', () => {
    const bare = (ratings: { name: string; standsV: number }[]) =>
      planInjection(
        input({ board: null, hunt: { rail: 'VX', ratings, mostA: null, leadOhm: null } }),
      );
    const why = (ratings: { name: string; standsV: number }[]) => {
      const plan = bare(ratings);
      return plan.ok ? [] : plan.refusals.map((one) => one.why);
    };
    expect(why([])).toEqual(['nothing-known']);
    expect(why([{ name: 'the rail', standsV: 1 }])).toEqual(['joint-not-measured']);
    expect(bare([{ name: 'the rail', standsV: 5 }])).toMatchObject({ ok: true, ceilingV: 5 });
  });
});
