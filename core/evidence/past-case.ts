/** How sure an outcome is. Only proved causes count. */
export type Proof = 'proved' | 'guessed' | 'unsolved';

/** What was done to prove a cause. */
export interface ProofSteps {
  /** The part was removed or replaced, or the bench put right. */
  readonly changed: boolean;
  /** The reading that had gone wrong came back at the same point. */
  readonly readingCameBack: boolean;
  readonly boardWoke: boolean;
}

/** An answer to a question, as a past job or the open one saw it. */
export interface Sight {
  readonly question: string;
  readonly outcome: string;
}

/** A closed job of this ledger, as evidence sees it. */
export interface PastCase {
  readonly jobId: string;
  readonly boardModel: string | null;
  /** Null when it was never solved. */
  readonly cause: string | null;
  readonly proof: Proof;
  readonly sights: readonly Sight[];
  /** UTC milliseconds. */
  readonly closedAt: number;
}

/** Proved takes all three: changed, the reading came back, the board woke. */
export function proofOf(cause: string | null, steps: ProofSteps): Proof {
  if (cause === null) return 'unsolved';
  return steps.changed && steps.readingCameBack && steps.boardWoke ? 'proved' : 'guessed';
}

/** What is still missing for a proof, in words; empty when it is proved. Null cause = nobody knows. */
export function missingProof(cause: string | null, steps: ProofSteps): readonly string[] {
  if (cause === null) return ['a cause'];
  return [
    ...(steps.changed ? [] : ['the part removed or replaced, or the bench put right']),
    ...(steps.readingCameBack ? [] : ['the reading back at the same point']),
    ...(steps.boardWoke ? [] : ['the board awake']),
  ];
}

/** Splits a finding's key into question and outcome at its last colon: `rail:MAIN:volts:low`. */
export function sightOf(key: string): Sight {
  const at = key.lastIndexOf(':');
  return at < 0
    ? { question: key, outcome: 'seen' }
    : { question: key.slice(0, at), outcome: key.slice(at + 1) };
}
