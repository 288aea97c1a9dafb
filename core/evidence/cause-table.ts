import { WakelineError } from '../errors.ts';

/** A cause that a job can end with. The shop adds its own under these. */
export interface Cause {
  readonly key: string;
  readonly text: string;
  /** Key of the wider cause; null at the top. */
  readonly parent: string | null;
  /** The bench's own fault, not the board's: comes before any of the board's. */
  readonly isBench: boolean;
  /** What tells whether it is there. */
  readonly check: string;
  /** How usual it is beside the others before anything is known. */
  readonly weight: number;
  /** No longer offered to who closes a job; jobs that ended with it still count. */
  readonly isRetired: boolean;
}

/**
 * Something that can be looked at, with its possible outcomes and P(outcome | cause). A finding whose
 * key is `main-rail:low` answers the question `main-rail` with `low`.
 */
export interface Question {
  readonly key: string;
  readonly text: string;
  readonly outcomes: readonly string[];
  /** Effort of looking, 1 is a reading in plain reach. */
  readonly effort: number;
  /**
   * How far its odds hold before a shop has counted its own cases: 1 for what is so by definition (a
   * limit below the stated input), about 0.6 for habits (what a draw looks like).
   */
  readonly trust: number;
  /** By cause key; `ANY_OTHER_CAUSE` for the rest. Outcomes left out share what is left over. */
  readonly odds: Readonly<Record<string, Readonly<Record<string, number>>>>;
}

/** Causes and questions: the starter table, or the shop's edited one. */
export interface CauseTable {
  readonly source: string;
  readonly causes: readonly Cause[];
  readonly questions: readonly Question[];
}

/**
 * Returns the table when it is sound.
 * @throws WakelineError `bad-input` naming the cause or question: double keys, a parent that is not
 * there or goes round in a loop, weights not above 0, odds outside 0 to 1 or above 1 together, an
 * outcome that the question does not list.
 */
export function checkCauseTable(table: CauseTable): CauseTable {
  const refuse = (where: string, what: string, todo: string): never => {
    throw new WakelineError({ code: 'bad-input', what, where: `causes, ${where}`, todo });
  };
  const byKey = new Map<string, Cause>();
  for (const cause of table.causes) {
    if (byKey.has(cause.key)) refuse(cause.key, 'This cause is there twice', 'Delete one.');
    if (!(cause.weight > 0))
      refuse(cause.key, 'Its weight is not above 0', 'Type a number like 1.');
    byKey.set(cause.key, cause);
  }
  for (const cause of table.causes) {
    const seen = new Set([cause.key]);
    for (let up = cause.parent; up !== null; up = byKey.get(up)?.parent ?? null) {
      if (!byKey.has(up))
        refuse(
          cause.key,
          `It belongs under ${up}, which is not there`,
          'Add it or choose another.',
        );
      if (seen.has(up))
        refuse(cause.key, 'It belongs under itself', 'Choose another place for it.');
      seen.add(up);
    }
  }
  const questions = new Set<string>();
  for (const { key, outcomes, odds, trust } of table.questions) {
    if (!(trust > 0 && trust <= 1))
      refuse(key, `A trust of ${trust} makes no sense`, 'Type above 0 to 1.');
    if (questions.has(key)) refuse(key, 'This question is there twice', 'Delete one.');
    questions.add(key);
    for (const [cause, row] of Object.entries(odds)) {
      let sum = 0;
      for (const [outcome, p] of Object.entries(row)) {
        if (!outcomes.includes(outcome))
          refuse(
            `${key}, ${cause}`,
            `${outcome} is no outcome of it`,
            `Use ${outcomes.join(', ')}.`,
          );
        if (!(p >= 0 && p <= 1))
          refuse(`${key}, ${cause}`, `${p} is no probability`, 'Type 0 to 1.');
        sum += p;
      }
      if (sum > 1 + 1e-9)
        refuse(`${key}, ${cause}`, `The outcomes add up to ${sum}`, 'Keep the sum at 1 or below.');
    }
  }
  return table;
}
