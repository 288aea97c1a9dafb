import { describe, expect, it } from 'vitest';
import { findKnee } from '../../../core/shorts/find-knee.ts';
import type { GradientInput, GradientPoint } from '../../../core/shorts/gradient.ts';
import { rankGradient } from '../../../core/shorts/rank-gradient.ts';
import { gradientFinding } from '../../../core/shorts/short-findings.ts';
import { hasNgspice } from '../../support/ngspice.ts';
import { solveNetwork } from '../../support/solve-network.ts';
import { seeded } from '../rails/random-board.ts';

const point = (
  name: string,
  atFirstV: number,
  more: Partial<GradientPoint> = {},
): GradientPoint => ({
  name,
  atFirstV,
  atZeroV: 0,
  atSecondV: null,
  alongMm: null,
  onPhoto: null,
  ...more,
});
const gradient = (points: readonly GradientPoint[], more: Partial<GradientInput> = {}) =>
  rankGradient({
    rail: 'MAIN',
    reference: 'ground at J1',
    firstA: 1,
    secondA: null,
    meterSigmaV: 1e-6,
    ampsSigmaA: 0,
    points,
    ...more,
  });

describe('rankGradient on a uniform trace (Ohm\u2019s law over a handbook trace of 0.982857 mohm/mm)', () => {
  // 1 A in at 0 mm, hard short to the return at 60 mm.
  const along = [0, 20, 40, 60, 80, 100];
  const volts = along.map((mm) => Math.max(0, 60 - mm) * 0.982857e-3);

  it('finds the readings that the law gives, and the knee at 60 mm', () => {
    expect(volts.map((v) => v * 1000)).toEqual([
      expect.closeTo(58.971429, 4),
      expect.closeTo(39.314286, 4),
      expect.closeTo(19.657143, 4),
      0,
      0,
      0,
    ]);
    const found = gradient(along.map((mm, i) => point(`P${mm}`, volts[i] ?? 0, { alongMm: mm })));
    expect(found.verdict).toBe('tie');
    expect([...found.nearest].sort()).toEqual(['P100', 'P60', 'P80']);
    expect(found.kneeMm).toBeCloseTo(60, 6);
    expect(found.text).toMatch(/side branches or lie beyond/);
  });

  it('finds a knee that lies between two points', () => {
    const short = 53;
    const points = along.map((alongMm) => ({
      alongMm,
      volts: Math.max(0, short - alongMm) * 0.982857e-3,
      sigmaV: 1e-6,
    }));
    expect(findKnee(points)).toBeCloseTo(short, 6);
  });

  it('finds no knee in a level line or a rising one', () => {
    const level = along.map((alongMm) => ({ alongMm, volts: 1e-3, sigmaV: 1e-6 }));
    expect(findKnee(level)).toBeNull();
    expect(findKnee(level.map((p) => ({ ...p, volts: p.alongMm * 1e-5 })))).toBeNull();
  });
});

describe('rankGradient', () => {
  it('takes the zero-current reading off before it ranks', () => {
    // 40 µV of contact volts would put B first.
    const found = gradient([
      point('A', 120e-6, { atZeroV: 40e-6 }),
      point('B', 100e-6, { atZeroV: 0 }),
      point('C', 300e-6),
    ]);
    expect(found).toMatchObject({ verdict: 'nearest', nearest: ['A'] });
    expect(found.ranked[0]?.arithmetic.replaceAll('\u00a0', ' ')).toMatch(
      /120.0 µV − 40.00 µV at no current = 80.00 µV/,
    );
  });

  it('names points within three sigma as ties, and the current that would part them', () => {
    const found = gradient([point('A', 100e-6), point('B', 102e-6), point('C', 300e-6)]);
    expect(found).toMatchObject({ verdict: 'tie', nearest: ['A', 'B'] });
    // Two readings each: sigma of a difference is 2 µV, three of them 6 µV against a gap of 2 µV.
    expect(found.neededA).toBeCloseTo(3, 9);
  });

  it('says that it cannot be told when all lies within three sigma of the meter', () => {
    const found = gradient([point('A', 10e-6), point('B', 12e-6), point('C', 14e-6)]);
    expect(found).toMatchObject({ verdict: 'cannot-tell', nearest: [] });
    expect(found.text).toMatch(/cannot be told/);
    expect(found.neededA).toBeCloseTo((6 * Math.sqrt(1)) / 4, 9);
  });

  it('checks that doubling the current doubles the drop', () => {
    const found = gradient(
      [
        point('A', 100e-6, { atSecondV: 200e-6 }),
        point('B', 200e-6, { atSecondV: 260e-6 }),
        point('C', 300e-6, { atSecondV: 603e-6 }),
      ],
      { secondA: 2 },
    );
    expect(found.ranked.map(({ name, isLinear }) => [name, isLinear])).toEqual([
      ['A', true],
      ['B', false],
      ['C', true],
    ]);
    expect(found.notes.join(' ')).toMatch(/did not follow the current at B/);
  });

  it('allows the check of doubling for what the currents themselves are off by', () => {
    const points = [point('A', 0.4, { atSecondV: 0.81 }), point('B', 0.5, { atSecondV: 1.01 })];
    const linear = (ampsSigmaA: number) =>
      gradient(points, { secondA: 2, ampsSigmaA }).ranked.map(({ isLinear }) => isLinear);
    expect(linear(0)).toEqual([false, false]);
    expect(linear(0.01)).toEqual([true, true]);
  });

  it('says what was left out, and when the probes are swapped', () => {
    const found = gradient([point('A', -90e-6, { atZeroV: null }), point('B', 300e-6)]);
    const notes = found.notes.join(' ');
    expect(notes).toMatch(/zero-current reading/);
    expect(notes).toMatch(/second current/);
    expect(notes).toMatch(/probes are swapped/);
  });

  it('wants more than one point, a current, and no point twice', () => {
    expect(gradient([point('A', 1e-3)]).verdict).toBe('cannot-tell');
    expect(() => gradient([point('A', 1)], { firstA: 0 })).toThrow(/Without current/);
    expect(() => gradient([point('A', 1), point('A', 2)])).toThrow(/A is there twice/);
  });

  it('writes itself into the job with its ohms and one sigma', () => {
    const found = gradient([point('A', 100e-6), point('C', 300e-6)]);
    const finding = gradientFinding('MAIN', found, 1, [], 3);
    expect(finding).toMatchObject({ key: 'gradient:MAIN:nearest', unit: 'Ω' });
    expect(finding.value).toBeCloseTo(100e-6, 12);
    expect(finding.uncertainty).toBeCloseTo(Math.SQRT2 * 1e-6, 12);
  });
});

/** Node volts of a resistor network with 2 A into its first node, solved by ngspice. */
function solve(
  resistors: readonly (readonly [a: string, b: string, ohm: number])[],
): ReadonlyMap<string, number> {
  const nodes = [...new Set(resistors.flat())].filter((node) => node !== '0');
  const lines = resistors.map(([a, b, ohm], i) => `R${i} ${a} ${b} ${ohm}`);
  return solveNetwork(['I1 0 n0 DC 2', ...lines], nodes.map(String));
}

/** A rail as a tree of tracks with capacitors on it, one of them shorted with 5 milliohm. */
function branchedRail(seed: number): {
  net: [string, string, number][];
  shorted: string;
  nodes: string[];
  parent: Map<string, string>;
} {
  const random = seeded(seed);
  const net: [string, string, number][] = [];
  const nodes = ['n0'];
  const parent = new Map<string, string>();
  for (let i = 1; i < 14; i++) {
    const from = nodes[Math.floor(random() ** 0.6 * nodes.length)] ?? 'n0';
    net.push([from, `n${i}`, 0.5e-3 + random() * 3e-3]);
    parent.set(`n${i}`, from);
    nodes.push(`n${i}`);
  }
  const shorted = nodes[1 + Math.floor(random() * 13)] ?? 'n1';
  net.push([shorted, '0', 5e-3]);
  return { net, shorted, nodes, parent };
}

const spice = hasNgspice();
if (!spice)
  console.log('rank-gradient.test: ngspice is not installed, so its networks are skipped');

describe.skipIf(!spice)('rankGradient against resistor networks solved by ngspice', () => {
  it('names the shorted part first or among its ties on 20 branched rails, noise and contact volts in', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const { net, shorted, nodes, parent } = branchedRail(seed);
      const solved = solve(net);
      expect(solved.size).toBe(nodes.length);
      const random = seeded(seed + 99);
      const noise = () => (random() + random() + random() + random() - 2) * 1.7e-6;
      const points = nodes.map((node) => {
        const contact = (random() - 0.5) * 60e-6;
        const volts = solved.get(node) ?? Number.NaN;
        return point(node, volts + contact + noise(), {
          atZeroV: contact + noise(),
          atSecondV: volts * 2 + contact + noise(),
        });
      });
      const found = gradient(points, { firstA: 2, secondA: 4, meterSigmaV: 1.5e-6 });
      expect(found.verdict, `seed ${seed}`).not.toBe('cannot-tell');
      expect(found.nearest, `seed ${seed}`).toContain(shorted);
      // Every tie hangs beyond the short: no current flows in it.
      const hangsBeyond = (node: string): boolean =>
        node === shorted || (parent.has(node) && hangsBeyond(parent.get(node) ?? ''));
      expect(found.nearest.every(hangsBeyond), `seed ${seed}`).toBe(true);
      expect(found.ranked.every(({ isLinear }) => isLinear)).toBe(true);
      const lowest = found.ranked.find(({ name }) => name === shorted);
      expect(lowest?.ohm).toBeCloseTo(5e-3, 5);
    }
  });

  it('cannot tell on a plane whose drops are below the noise of the meter', () => {
    // A square plane of 7 x 7 with the sheet resistance of 1 oz copper, half a milliohm a square.
    const net: [string, string, number][] = [];
    const name = (x: number, y: number) => (x === 0 && y === 0 ? 'n0' : `n${x}x${y}`);
    for (let x = 0; x < 7; x++) {
      for (let y = 0; y < 7; y++) {
        if (x < 6) net.push([name(x, y), name(x + 1, y), 0.4926e-3]);
        if (y < 6) net.push([name(x, y), name(x, y + 1), 0.4926e-3]);
      }
    }
    net.push([name(3, 3), '0', 5e-3]);
    const solved = solve(net);
    const near = [name(2, 2), name(3, 3), name(4, 3), name(5, 5)];
    const points = near.map((node) => point(node, solved.get(node) ?? 0));
    const coarse = gradient(points, { firstA: 2, meterSigmaV: 0.2e-3 });
    expect(coarse.verdict).toBe('cannot-tell');
    const fine = gradient(points, { firstA: 2, meterSigmaV: 1e-6 });
    expect(fine.nearest).toContain(name(3, 3));
  });

  it('agrees with the textbook cube of unit resistors, so the solver is wired right (5/6, 3/4, 7/12, from memory)', () => {
    const corner = (x: number, y: number, z: number) => (x + y + z === 0 ? 'n0' : `c${x}${y}${z}`);
    const between = (to: string) => {
      const net: [string, string, number][] = [];
      for (let i = 0; i < 8; i++) {
        const [x, y, z] = [i & 1, (i >> 1) & 1, (i >> 2) & 1];
        if (x === 0) net.push([corner(0, y, z), corner(1, y, z), 1]);
        if (y === 0) net.push([corner(x, 0, z), corner(x, 1, z), 1]);
        if (z === 0) net.push([corner(x, y, 0), corner(x, y, 1), 1]);
      }
      const grounded = net.map(([a, b, r]) => [a === to ? '0' : a, b === to ? '0' : b, r] as const);
      return (solve(grounded).get('n0') ?? 0) / 2;
    };
    expect(between('c111')).toBeCloseTo(5 / 6, 9);
    expect(between('c110')).toBeCloseTo(3 / 4, 9);
    expect(between('c100')).toBeCloseTo(7 / 12, 9);
  });
});
