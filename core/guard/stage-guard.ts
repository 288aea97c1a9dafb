import { STAGE_WORDS, type Stage } from '../stages/stage.ts';
import type { GuardTrip, StageLimit } from './guard-limit.ts';

/** Looks at the stages of a run whenever they change. */
export interface StageGuard {
  /** Trips that the newest stage causes. A limit trips once a stage. */
  see(stages: readonly Stage[]): readonly GuardTrip[];
  /** Other limits from now on; one that was there before keeps what it has told. */
  change(limits: readonly StageLimit[]): void;
}

/** Why this stage is beyond this limit, in words; null when it is not. */
function beyond(limit: StageLimit, stage: Stage): string | null {
  if (limit.on !== stage.stage) return null;
  const lastedS = stage.endS - stage.startS;
  const words = STAGE_WORDS[stage.stage];
  if (limit.on === 'fell-back') {
    return `${words} at ${stage.startS.toFixed(1)} s: ${stage.reason}`;
  }
  if (limit.on === 'cycling') {
    if (stage.periodS === null || stage.periodS <= 0) return null;
    const times = Math.floor(lastedS / stage.periodS + 1e-9);
    if (times < limit.times) return null;
    return `${words} ${times} times with a period of ${stage.periodS.toFixed(2)} s; the guard allows fewer than ${limit.times}`;
  }
  if (lastedS < limit.forS) return null;
  return `${words} for ${lastedS.toFixed(1)} s; the guard allows less than ${limit.forS} s`;
}

/** A guard over what the draw does. It looks at the newest stage: what is over is no danger any more. */
export function stageGuard(first: readonly StageLimit[]): StageGuard {
  let limits = first;
  let tripped = new Map<StageLimit, Stage>();
  return {
    change(next) {
      const told = new Map([...tripped].map(([limit, stage]) => [JSON.stringify(limit), stage]));
      limits = next;
      tripped = new Map(
        next.flatMap((limit) => {
          const stage = told.get(JSON.stringify(limit));
          return stage === undefined ? [] : [[limit, stage] as const];
        }),
      );
    },
    see(stages) {
      const newest = stages.at(-1);
      if (newest === undefined) return [];
      const trips: GuardTrip[] = [];
      for (const limit of limits) {
        const before = tripped.get(limit);
        // Its start may still move while it is the newest: the same stage as long as they overlap.
        if (before !== undefined && before.stage === newest.stage && newest.startS <= before.endS) {
          tripped.set(limit, newest);
          continue;
        }
        const text = beyond(limit, newest);
        if (text === null) continue;
        tripped.set(limit, newest);
        trips.push({ limit, action: limit.action, atS: newest.endS, text });
      }
      return trips;
    },
  };
}
