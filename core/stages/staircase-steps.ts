import { TICKS_PER_SECOND } from '../trace/sample.ts';
import type { Named } from './named.ts';
import type { StageId, Step } from './stage.ts';

/** The stage and level that steps are counted from. */
export interface StepBase {
  readonly stage: StageId;
  readonly amps: number;
}

const CLIMBS: readonly StageId[] = ['stepping', 'running', 'stalled', 'flat-high'];
const STARTS: readonly StageId[] = ['flat-low', 'no-draw', 'stepping', 'stalled', 'fell-back'];

/** Every change of level inside the staircases of named stretches, the one onto the first included. */
export function staircaseSteps(
  named: readonly Named[],
  base: StepBase | null,
): { steps: Step[]; base: StepBase | null } {
  const steps: Step[] = [];
  let last = base;
  for (const n of named) {
    if (!CLIMBS.includes(n.stage)) {
      last = { stage: n.stage, amps: n.spans[n.spans.length - 1]!.piece.amps };
      continue;
    }
    n.spans.forEach((span, i) => {
      const own = i === 0 ? last !== null && STARTS.includes(last.stage) : n.stage === 'stepping';
      const toA = span.piece.amps;
      if (own && last !== null) {
        steps.push({ atS: span.start / TICKS_PER_SECOND, fromA: last.amps, toA });
      }
      last = { stage: n.stage, amps: toA };
    });
  }
  return { steps, base: last };
}
