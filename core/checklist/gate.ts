/**
 * What a step holds back until it is done, or skipped with a reason, from nothing to everything that
 * can hurt. Each holds back what stands before it too: who may not measure may not power either.
 */
export const GATES = ['nothing', 'closing', 'soak', 'power', 'ohms'] as const;
export type Gate = (typeof GATES)[number];

/** A gate as it is said in a sentence after "holds back". */
export const GATE_WORDS: Readonly<Record<Gate, string>> = {
  nothing: 'nothing',
  closing: 'closing the job as waking',
  soak: 'the soak',
  power: 'power',
  ohms: 'ohms and diode readings, and power',
};

/** Whether a gate holds back at least as much as another. */
export function isAtLeast(gate: Gate, least: Gate): boolean {
  return GATES.indexOf(gate) >= GATES.indexOf(least);
}
