import type { Fault } from './fault.ts';
import type { FaultPosterior } from './fault-posterior.ts';
import type { RailModel } from './rail-model.ts';

/** Faults that no measurement of the tree tells apart, with the probability that one of them is there. */
export interface Suspect {
  readonly faults: readonly Fault[];
  readonly probability: number;
  /** `the converter of 3V3 does not run, or an open link from MAIN to 3V3`. */
  readonly text: string;
}

/** Suspects below this share of the first are not listed. */
const LISTED_SHARE = 0.01;
const LEAST = 0.0002;

/**
 * Faults by probability, those that show the same everywhere put together: finer than this only a
 * look or a part lifted can tell.
 */
export function listSuspects(model: RailModel, posterior: FaultPosterior): readonly Suspect[] {
  const groups = new Map<number, number[]>();
  for (let fault = 0; fault < model.faults.length; fault++) {
    if ((posterior.byFault[fault] ?? 0) < LEAST / 4) continue;
    const signature = model.signatures[fault] ?? 0;
    groups.set(signature, [...(groups.get(signature) ?? []), fault]);
  }
  const suspects = [...groups.values()].map((members) => {
    const sorted = members.sort(
      (a, b) => (posterior.byFault[b] ?? 0) - (posterior.byFault[a] ?? 0),
    );
    const faults = sorted
      .map((index) => model.faults[index])
      .filter((fault) => fault !== undefined);
    const probability = sorted.reduce((sum, index) => sum + (posterior.byFault[index] ?? 0), 0);
    return {
      faults,
      probability: Math.min(1, probability),
      text: faults.map(({ text }) => text).join(', or '),
    };
  });
  suspects.sort((a, b) => b.probability - a.probability);
  const first = suspects[0]?.probability ?? 0;
  return suspects.filter(({ probability }) => probability >= Math.max(LEAST, first * LISTED_SHARE));
}
