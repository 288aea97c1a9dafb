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
  const rowsOf = new Map<number, Uint8Array[]>();
  for (const [at, { fault }] of model.variants.entries()) {
    const row = model.conditions[at] ?? model.healthy;
    rowsOf.set(fault, [...(rowsOf.get(fault) ?? []), row]);
  }
  const groups = new Map<number, number[]>();
  for (let fault = 0; fault < model.faults.length; fault++) {
    if ((posterior.byFault[fault] ?? 0) < LEAST / 4) continue;
    const signature = signatureOf(rowsOf.get(fault) ?? []);
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

/** Hash of what a fault shows at every measurement: 52 bits, two halves of FNV-1a. */
function signatureOf(rows: readonly Uint8Array[]): number {
  let low = 0x811c9dc5;
  let high = 0x01234567;
  for (const row of rows) {
    for (const value of row) {
      low = Math.imul(low ^ value, 0x01000193);
      high = Math.imul(high ^ (value + 17), 0x01000193);
    }
  }
  return (low >>> 0) * 0x100000 + ((high >>> 0) & 0xfffff);
}
