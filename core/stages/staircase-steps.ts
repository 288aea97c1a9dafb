import { TICKS_PER_SECOND } from '../trace/sample.ts';
import type { Ammeter } from './board.ts';
import type { Named } from './named.ts';
import type { Span } from './span.ts';
import { meanUncertaintyA, riseS } from './span-figures.ts';
import type { StageId, Step } from './stage.ts';

/** The stage and level that steps are counted from. */
export interface StepBase {
  readonly stage: StageId;
  readonly amps: number;
  readonly span: Span;
}

const CLIMBS: readonly StageId[] = ['stepping', 'running', 'stalled', 'flat-high'];
const STARTS: readonly StageId[] = ['flat-low', 'no-draw', 'stepping', 'stalled', 'fell-back'];

/** Every change of level inside the staircases of named stretches, the one onto the first included. */
export function staircaseSteps(
  named: readonly Named[],
  base: StepBase | null,
  ammeter: Pick<Ammeter, 'countA'>,
): { steps: Step[]; base: StepBase | null } {
  const steps: Step[] = [];
  let last = base;
  for (const n of named) {
    if (!CLIMBS.includes(n.stage)) {
      const span = n.spans[n.spans.length - 1]!;
      last = { stage: n.stage, amps: span.piece.amps, span };
      continue;
    }
    n.spans.forEach((span, i) => {
      const own = i === 0 ? last !== null && STARTS.includes(last.stage) : n.stage === 'stepping';
      const toA = span.piece.amps;
      if (own && last !== null) {
        const rise = riseS(last.span, span);
        steps.push({
          atS: span.start / TICKS_PER_SECOND,
          fromA: last.amps,
          toA,
          ...(rise === null ? {} : { riseS: rise }),
          plusMinusA: Math.hypot(
            meanUncertaintyA(last.span.piece, ammeter),
            meanUncertaintyA(span.piece, ammeter),
          ),
        });
      }
      last = { stage: n.stage, amps: toA, span };
    });
  }
  return { steps, base: last };
}
