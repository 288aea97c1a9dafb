import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BOARD_SHELF } from '../../../core/bench-model/board-shelf.ts';
import { aimV, createConverter, limitAt, workOut } from '../../../core/bench-model/converter.ts';

const plans = BOARD_SHELF.flatMap((board) => board.converters);
const front = plans.find((plan) => plan.part === 'U1' && plan.setV === 8.6)!;

function running(plan: (typeof plans)[number]) {
  const converter = createConverter(plan, 0, 1, { canEnable: true, alive: true });
  converter.phase = 'on';
  return converter;
}

describe('workOut', () => {
  it('takes in the power that it gives out, over its efficiency, and its own losses', () => {
    const converter = running(front);
    workOut(converter, 10, 19, 8.58);
    const inW = 19 * converter.inA;
    const lostW = front.idleW + front.lossOhms * converter.outA ** 2;
    expect(converter.outA).toBeCloseTo(0.02 / ((0.01 * 8.6) / 3.6), 6);
    expect(inW).toBeCloseTo((8.58 * converter.outA) / front.efficiency + lostW, 9);
  });

  it('draws more current from fewer volts for the same output: constant power', () => {
    const converter = running(front);
    workOut(converter, 10, 19, 8.58);
    const at19 = converter.inA;
    workOut(converter, 10, 14, 8.58);
    expect(converter.inA / at19).toBeCloseTo(19 / 14, 9);
  });

  it('holds its limit, and a lower one while its output is low', () => {
    const converter = running(front);
    workOut(converter, 10, 19, 2);
    expect(converter.outA).toBe(1.4);
    expect(converter.limited).toBe(true);
    expect(limitAt(front, 0.6 * 8.6).limitA).toBeCloseTo(2.5, 9);
    expect(limitAt(front, 8).limitA).toBe(3.6);
  });

  it('ramps its aim over its soft start', () => {
    const converter = running(front);
    converter.sinceS = 1;
    expect([0.5, 1, 1.004, 1.008, 2].map((t) => aimV(converter, t))).toEqual(
      [0, 0, 4.3, 8.6, 8.6].map((v) => expect.closeTo(v, 6)),
    );
  });

  it('gives and takes nothing while it is not on', () => {
    const converter = running(front);
    converter.phase = 'waiting';
    workOut(converter, 10, 19, 3);
    expect([converter.inA, converter.outA]).toEqual([0, 0]);
  });

  it('knows its own slopes: they agree with small differences for every converter', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...plans),
        fc.double({ min: 0.6, max: 1.5, noNaN: true }),
        fc.double({ min: 0, max: 1.02, noNaN: true }),
        (plan, feedShare, outShare) => {
          const inV = Math.max(plan.starts.aboveV, plan.setV) * feedShare;
          const outV = plan.setV * outShare;
          const converter = running(plan);
          const at = (dIn: number, dOut: number) => {
            workOut(converter, 10, inV + dIn, outV + dOut);
            return { ...converter };
          };
          const d = 1e-7;
          const here = at(0, 0);
          const [inUp, inDown, outUp, outDown] = [at(d, 0), at(-d, 0), at(0, d), at(0, -d)];
          // At a corner of the characteristic the two sides disagree: nothing to check there.
          const smooth = (a: number, b: number, c: number) =>
            Math.abs(a - 2 * b + c) < 1e-9 + 1e-4 * Math.abs(a - c);
          const agree = (slope: number, up: number, mid: number, down: number) => {
            if (!smooth(up, mid, down)) return;
            const measured = (up - down) / (2 * d);
            expect(Math.abs(slope - measured)).toBeLessThan(1e-3 + 1e-3 * Math.abs(measured));
          };
          agree(here.outPerIn, inUp.outA, here.outA, inDown.outA);
          agree(here.outPerOut, outUp.outA, here.outA, outDown.outA);
          agree(here.inPerIn, inUp.inA, here.inA, inDown.inA);
          agree(here.inPerOut, outUp.inA, here.inA, outDown.inA);
        },
      ),
      { numRuns: 500 },
    );
  });
});
