import type { FaultPrior } from './fault.ts';
import { CONDITION } from './outcome-odds.ts';
import type { RailModel } from './rail-model.ts';

/**
 * P(what the bench supply shows | conditions): a short on the input, or one that pulls it down, puts
 * the supply at its limit; an input that does not arrive, or a tree where nothing past the input is
 * up, draws next to nothing. A limit set too low, thin leads or a reversed feed hold an input down
 * with the board whole (common practice, no source). 1 when nobody looked.
 */
export function drawOdds(
  { graph, healthy }: Pick<RailModel, 'graph' | 'healthy'>,
  draw: FaultPrior['draw'],
  conditions: Uint8Array,
): number {
  if (draw === null) return 1;
  let limited = 0.04;
  let none = 0.03;
  let isAnyUp = false;
  let isAnyInputUp = false;
  let isInputDown = false;
  for (let rail = 0; rail < graph.count; rail++) {
    const volts = graph.volts[rail] ?? -1;
    const ohms = graph.ohms[rail] ?? -1;
    const isInput = graph.feeds[rail]?.length === 0;
    const condition = volts < 0 ? CONDITION.up : conditions[volts];
    const isGrounded = ohms >= 0 && conditions[ohms] === CONDITION['ohms-shorted'];
    if (isGrounded) limited = Math.max(limited, isInput ? 0.95 : 0.1);
    if (isInput && (condition === CONDITION.shorted || condition === CONDITION.pulled)) {
      limited = Math.max(limited, condition === CONDITION.shorted ? 0.95 : 0.5);
    }
    if (isInput && condition === CONDITION.sagging) limited = Math.max(limited, 0.3);
    if (isInput && condition === CONDITION.down) isInputDown = true;
    else if (isInput && condition !== CONDITION.asleep) isAnyInputUp = true;
    if (!isInput && volts >= 0 && healthy[volts] === CONDITION.up && condition === CONDITION.up) {
      isAnyUp = true;
    }
  }
  if (!isAnyUp && limited < 0.2) none = Math.max(none, 0.45);
  if (isInputDown && limited < 0.2) {
    none = isAnyInputUp ? Math.max(none, 0.5) : 0.8;
    if (!isAnyInputUp) limited = 0.75;
  }
  if (draw === 'limited') return limited * (1 - none);
  if (draw === 'none') return none;
  return Math.max(0.01, (1 - limited) * (1 - none));
}
