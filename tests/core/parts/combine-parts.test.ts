import { describe, expect, it } from 'vitest';
import { combineParts, type StockedPart } from '../../../core/parts/combine-parts.ts';
import type { PartPlace } from '../../../core/parts/equivalence.ts';
import { parsePart } from '../../../core/parts/parse-part.ts';

const place: PartPlace = { railV: null, role: 'bulk', critical: false, roomMm: null };
const stock = (...texts: readonly string[]): StockedPart[] =>
  texts.map((text) => {
    const [count = '1', ...rest] = text.split(' x ');
    return { spec: parsePart(rest.join(' x ')).spec, count: Number(count) };
  });
const combine = (wanted: string, ...texts: readonly string[]) =>
  combineParts(parsePart(wanted).spec, stock(...texts), place);

describe('combineParts', () => {
  it('adds capacitors in parallel at the lower rating, ESR in parallel', () => {
    const [best] = combine('44u 10V 20m ESR polymer', '2 x 22u 16V 40m ESR polymer');
    expect(best).toMatchObject({ how: 'parallel', parts: [0, 0], ratedV: 16 });
    expect(best?.value).toBeCloseTo(44e-6, 15);
    expect(best?.esrOhm).toBeCloseTo(0.02, 12);
    expect(best?.arithmetic).toMatch(/22\sµF \|\| 22\sµF in parallel = 44\sµF/);
  });

  it('shares volts over capacitors in series by their size', () => {
    const found = combine('5u 30V', '2 x 10u 16V');
    expect(found[0]).toMatchObject({ how: 'series', ratedV: 32 });
    const unequal = combine('6.67u 18V 5%', '1 x 10u 16V', '1 x 20u 16V');
    // The smaller takes two thirds of the volts: 16 V on it are 24 V in all.
    expect(unequal[0]?.ratedV).toBeCloseTo(24, 9);
  });

  it('leaves out what is rated too low', () => {
    expect(combine('44u 25V', '2 x 22u 16V')).toEqual([]);
  });

  it('adds the textbook 10 k, 2 k, 1 k network pair by pair (from memory: parallel is 625 ohm)', () => {
    const [pair] = combine('1666.7 ohm 1%', '1 x 10k', '1 x 2k');
    expect(pair?.value).toBeCloseTo(1666.666667, 5);
    const [all] = combine('625 ohm 1%', '1 x 1666.6666667ohm', '1 x 1k');
    expect(all?.value).toBeCloseTo(625, 5);
  });

  it('puts three or four of the same together only where there are that many', () => {
    expect(combine('30k 1%', '2 x 10k')).toEqual([]);
    expect(combine('30k 1%', '3 x 10k')[0]).toMatchObject({ how: 'series', parts: [0, 0, 0] });
  });

  it('keeps the power of each resistor', () => {
    const [best] = combine('100R 5% 0.5W', '2 x 200R 0.25W');
    expect(best).toMatchObject({ how: 'parallel', ratedW: 0.5 });
  });

  it('says so when makes are mixed, and refuses kinds that cannot be combined', () => {
    const [best] = combine('44u 10V polymer', '2 x 22u 16V X5R');
    expect(best?.cautions.join(' ')).toMatch(/DC bias/);
    expect(() => combine('fuse 3A', '2 x fuse 1.5A')).toThrow(/Only resistors, capacitors/);
  });
});
