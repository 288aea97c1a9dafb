import type { BoardFault } from './board-plan.ts';

/** The leaks of a board that get worse as they warm up. */
export interface Leaks {
  readonly count: number;
  /** Carries their warmth on by a step that ended at these volts. */
  warm(volts: Float64Array, stepS: number): void;
}

/**
 * Makes the leaks, cold. Each adds its conductance to its net's place in `siemensToGround` and
 * moves it as it warms: warmth follows the share of `nominalV` on its net, first order.
 */
export function createLeaks(
  faults: readonly BoardFault[],
  nominalV: number,
  netOf: (name: string) => number,
  siemensToGround: Float64Array,
): Leaks {
  const leaks = faults.flatMap((plan) =>
    plan.kind === 'warming-leak' ? [{ plan, net: netOf(plan.net), warmth: 0, siemens: 0 }] : [],
  );
  function warm(volts: Float64Array, stepS: number): void {
    for (const leak of leaks) {
      const { coldOhms, hotOhms, warmS } = leak.plan;
      const aim = Math.min(1.2, Math.abs(volts[leak.net]!) / nominalV);
      leak.warmth = aim + (leak.warmth - aim) * Math.exp(-stepS / warmS);
      const siemens = 1 / coldOhms + leak.warmth * (1 / hotOhms - 1 / coldOhms);
      siemensToGround[leak.net]! += siemens - leak.siemens;
      leak.siemens = siemens;
    }
  }
  warm(new Float64Array(siemensToGround.length), 0);
  return { count: leaks.length, warm };
}
