import { ANY_OTHER_CAUSE } from '../finding/finding.ts';
import type { CauseTable, Question } from './cause-table.ts';
import type { PastCase, Sight } from './past-case.ts';

/** How many cases outweigh what is thought beforehand: of a cause in the shop, of one on a board model, of an outcome under a cause. Chosen on simulated shops other than those of the tests. */
const CAUSE_STRENGTH = 6;
const MODEL_STRENGTH = 15;
const OUTCOME_STRENGTH = 12;
/** Trust in a question that the table does not list. */
const UNLISTED_TRUST = 0.6;

/** Causes with their smoothed probabilities, and P(outcome | cause), from table and proved cases. */
export interface CauseOdds {
  readonly causes: readonly string[];
  /** Prior of each cause, same order, summing to 1. */
  readonly priors: readonly number[];
  /** P(sight | cause), smoothed, softened and never 0. */
  readonly likelihood: (sight: Sight, cause: string) => number;
  /** Proved cases in all. */
  readonly cases: number;
}

/**
 * Learns from proved cases only. A cause's share in the shop is smoothed by the table, its share on
 * this board model by its share in the shop, an outcome's share under a cause by the table: each a
 * Dirichlet prior, (count + strength x expected) / (cases + strength), which is the rule of succession
 * when two are expected evenly at a strength of 2. Odds that rest on the table more than on cases are
 * softened by the question's trust, since nobody has counted them: a likelihood is taken at a power
 * below 1.
 */
export function causeOdds(
  table: CauseTable,
  past: readonly PastCase[],
  boardModel: string | null,
): CauseOdds {
  const proved = past.filter(({ proof, cause }) => proof === 'proved' && cause !== null);
  const parentOf = new Map(table.causes.map(({ key, parent }) => [key, parent]));
  const isParent = new Set(
    table.causes.filter(({ isRetired }) => !isRetired).map(({ parent }) => parent),
  );
  const added = proved.map(({ cause }) => cause ?? '').filter((key) => !parentOf.has(key));
  // Wider causes are headings: jobs end with the narrow ones, or with a heading only when proved so.
  // A retired cause stays as long as a job was proved to have ended with it.
  const known = table.causes.filter(
    ({ key, isRetired }) =>
      (!isParent.has(key) && !isRetired) || proved.some(({ cause }) => cause === key),
  );
  const causes = [...known.map(({ key }) => key), ...new Set(added)];
  const weights = new Map(table.causes.map(({ key, weight }) => [key, weight]));
  const tableWeight = (key: string) => weights.get(key) ?? LEAST_WEIGHT;
  const totalTable = causes.reduce((sum, key) => sum + tableWeight(key), 0);
  const own = proved.filter((each) => boardModel !== null && each.boardModel === boardModel);
  const inShop = countCauses(proved);
  const onModel = countCauses(own);
  const priors = causes.map((key) => {
    const expected = tableWeight(key) / totalTable;
    const shop =
      ((inShop.get(key) ?? 0) + CAUSE_STRENGTH * expected) / (proved.length + CAUSE_STRENGTH);
    return ((onModel.get(key) ?? 0) + MODEL_STRENGTH * shop) / (own.length + MODEL_STRENGTH);
  });
  const questions = new Map(table.questions.map((question) => [question.key, question]));
  const seen = countSights(proved);
  const outcomesOf = (question: string) => {
    const listed = questions.get(question)?.outcomes ?? [];
    return new Set([...listed, ...(seen.outcomes.get(question) ?? [])]);
  };
  return {
    causes,
    priors,
    cases: proved.length,
    likelihood: ({ question, outcome }, cause) => {
      const outcomes = outcomesOf(question);
      outcomes.add(outcome);
      const mean = tableOdds(questions.get(question), outcome, cause, parentOf, outcomes.size);
      const hits = seen.counts.get(`${cause}\n${question}\n${outcome}`) ?? 0;
      const cases = seen.answered.get(`${cause}\n${question}`) ?? 0;
      const share = (hits + OUTCOME_STRENGTH * mean) / (cases + OUTCOME_STRENGTH);
      const counted = cases / (cases + OUTCOME_STRENGTH);
      const trust = questions.get(question)?.trust ?? UNLISTED_TRUST;
      return share ** (trust + (1 - trust) * counted);
    },
  };
}

/** A cause that the shop added and the table does not weigh. */
const LEAST_WEIGHT = 0.3;
/** Nothing is impossible: each outcome keeps this much of an even share. */
const FLOOR_SHARE = 0.02;

function tableOdds(
  question: Question | undefined,
  outcome: string,
  cause: string,
  parentOf: ReadonlyMap<string, string | null>,
  outcomes: number,
): number {
  const even = 1 / Math.max(1, outcomes);
  if (question === undefined) return even;
  let row = question.odds[cause];
  for (let up = parentOf.get(cause) ?? null; row === undefined && up !== null; ) {
    row = question.odds[up];
    up = parentOf.get(up) ?? null;
  }
  row ??= question.odds[ANY_OTHER_CAUSE] ?? {};
  const given = Object.values(row).reduce((sum, p) => sum + p, 0);
  const open = Math.max(1, outcomes - Object.keys(row).length);
  const p = row[outcome] ?? Math.max(0, 1 - given) / open;
  return (1 - FLOOR_SHARE) * p + FLOOR_SHARE * even;
}

function countCauses(cases: readonly PastCase[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { cause } of cases) counts.set(cause ?? '', (counts.get(cause ?? '') ?? 0) + 1);
  return counts;
}

function countSights(proved: readonly PastCase[]) {
  const counts = new Map<string, number>();
  const answered = new Map<string, number>();
  const outcomes = new Map<string, Set<string>>();
  const add = (map: Map<string, number>, key: string) => map.set(key, (map.get(key) ?? 0) + 1);
  for (const { cause, sights } of proved) {
    for (const { question, outcome } of sights) {
      add(counts, `${cause}\n${question}\n${outcome}`);
      add(answered, `${cause}\n${question}`);
      outcomes.set(question, (outcomes.get(question) ?? new Set()).add(outcome));
    }
  }
  return { counts, answered, outcomes };
}
