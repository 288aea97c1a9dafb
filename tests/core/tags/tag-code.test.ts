import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dammDigit } from '../../../core/tags/damm.ts';
import { isTagCode, shownTagCode, tagCodeFrom } from '../../../core/tags/tag-code.ts';

describe("the check digit of a tag's code", () => {
  it("is Damm's: 572 has 4, the worked example of the method's public description", () => {
    expect(dammDigit('572')).toBe(4);
    expect(dammDigit('5724')).toBe(0);
    expect(dammDigit('5727')).not.toBe(0);
  });

  it('rests on a table that is a Latin square and weakly totally anti-symmetric (Damm 2004)', () => {
    const star = (c: number, x: number) => dammStep(c, x);
    for (let c = 0; c < 10; c += 1) {
      const row = Array.from({ length: 10 }, (_, x) => star(c, x));
      expect(new Set(row).size).toBe(10);
      const column = Array.from({ length: 10 }, (_, x) => star(x, c));
      expect(new Set(column).size).toBe(10);
      for (let x = 0; x < 10; x += 1) {
        expect(star(x, x)).toBe(0);
        for (let y = 0; y < 10; y += 1) {
          if (x === y) continue;
          expect(star(star(c, x), y)).not.toBe(star(star(c, y), x));
        }
      }
    }
  });

  it('catches every wrong digit and every swap of neighbours', () => {
    const code = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true }).map(tagCodeFrom);
    fc.assert(
      fc.property(code, (good) => {
        expect(isTagCode(good)).toBe(true);
        for (let at = 0; at < good.length; at += 1) {
          for (let digit = 0; digit < 10; digit += 1) {
            const wrong = `${good.slice(0, at)}${digit}${good.slice(at + 1)}`;
            if (wrong !== good) expect(isTagCode(wrong)).toBe(false);
          }
          const [a, b] = [good.charAt(at), good.charAt(at + 1)];
          if (b === '' || a === b) continue;
          expect(isTagCode(`${good.slice(0, at)}${b}${a}${good.slice(at + 2)}`)).toBe(false);
        }
      }),
    );
  });
});

/** One step of the check, read out of the public function: c times x. */
function dammStep(c: number, x: number): number {
  // The digit c by itself gives 0 * c; find the row of digits that stands at interim c.
  const lead = Array.from({ length: 10 }, (_, d) => String(d)).find((d) => dammDigit(d) === c)!;
  return dammDigit(`${lead}${x}`);
}

describe("a tag's code", () => {
  it('begins with a digit that no key of the window answers to', () => {
    expect(tagCodeFrom(0).charAt(0)).toBe('5');
    expect(tagCodeFrom(0.999_999_9).charAt(0)).toBe('9');
  });

  it('is printed in two groups and read with or without the blank', () => {
    const code = tagCodeFrom(0.5);
    expect(shownTagCode(code)).toMatch(/^\d{4} \d{4}$/);
    expect(isTagCode(shownTagCode(code))).toBe(true);
  });
});
