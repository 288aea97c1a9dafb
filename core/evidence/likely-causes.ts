import { type Finding, likelihoodUnder } from '../finding/finding.ts';
import { type CauseOdds, causeOdds } from './cause-odds.ts';
import type { Cause, CauseTable } from './cause-table.ts';
import { betaSummary, type Interval } from './intervals.ts';
import { countLike, type LikeCases } from './like-cases.ts';
import { type NextQuestion, nextQuestions } from './next-questions.ts';
import { type PastCase, type Sight, sightOf } from './past-case.ts';

/** One cause with how likely it is and what that rests on. */
export interface CauseEstimate {
  readonly cause: Cause;
  readonly probability: number;
  /** 95 %, from as many cases as speak to it. */
  readonly interval: Interval;
  /** Earlier jobs that looked the same, and how they ended. */
  readonly like: LikeCases;
}

/** A fault of the bench that nobody has ruled out yet. */
export interface OpenBenchCheck {
  readonly cause: Cause;
  readonly probability: number;
  readonly question: string;
}

export interface LikelyCauses {
  /** Most likely first. */
  readonly causes: readonly CauseEstimate[];
  /** To be looked at before any fault of the board. */
  readonly benchFirst: readonly OpenBenchCheck[];
  /** `none` = no lean; `leaning` = look on; `strong` = several kinds of findings agree. Never more. */
  readonly standing: 'none' | 'leaning' | 'strong';
  readonly basis: 'starter' | 'mixed' | 'ledger';
  readonly next: readonly NextQuestion[];
  readonly summary: string;
}

/** Fewer proved cases than this and the table leads. */
const FEW_CASES = 5;
const MANY_CASES = 30;
const STRONG = 0.75;
/** A bench fault below this is not worth stopping for. */
const BENCH_LEAST = 0.01;

/**
 * Likely causes of an open job from its findings: Bayes' rule over causes, with shares learned from
 * this ledger's proved outcomes and smoothed by the table. The bench's own faults come first, one
 * number is never a verdict, and with few cases it says that it leans on the table.
 */
export function likelyCauses(
  table: CauseTable,
  past: readonly PastCase[],
  findings: readonly Finding[],
  boardModel: string | null,
): LikelyCauses {
  const odds = causeOdds(table, past, boardModel);
  const answers = latestAnswers(findings);
  const sights = answers.map(({ sight }) => sight);
  const posterior = posteriorOf(odds, table, answers);
  const estimates = odds.causes
    .map((key, at) => {
      const probability = posterior[at] ?? 0;
      const cause = causeOf(table, key);
      const like = countLike(past, sights, key, cause.text);
      const cases = STRENGTH + like.proved;
      const { low, high } = betaSummary(
        probability * cases + EDGE,
        (1 - probability) * cases + EDGE,
      );
      return { cause, probability, interval: { low, high }, like };
    })
    .sort((a, b) => b.probability - a.probability);
  const benchFirst = openBenchChecks(table, estimates, sights);
  const next = nextQuestions(table, odds, posterior, sights, benchFirst);
  const first = estimates[0];
  const isOneNumber = sights.length < 2;
  const isBenchOpen = benchFirst.length > 0 && first?.cause.isBench !== true;
  const lead = first?.probability ?? 0;
  const standing =
    sights.length === 0 || lead < 0.35
      ? 'none'
      : isOneNumber || isBenchOpen || lead < STRONG
        ? 'leaning'
        : 'strong';
  const basis = odds.cases < FEW_CASES ? 'starter' : odds.cases < MANY_CASES ? 'mixed' : 'ledger';
  return {
    causes: estimates,
    benchFirst,
    standing,
    basis,
    next,
    summary: summarise(first, standing, basis, sights.length, benchFirst, next, table.source, odds),
  };
}

const STRENGTH = 4;
const EDGE = 0.5;

interface Answer {
  readonly sight: Sight;
  readonly finding: Finding;
}

/** One answer a question: the latest, for a reading taken again replaces the one before. */
function latestAnswers(findings: readonly Finding[]): Answer[] {
  const latest = new Map<string, Answer>();
  for (const finding of [...findings].sort((a, b) => a.at - b.at)) {
    const sight = sightOf(finding.key);
    latest.set(sight.question, { sight, finding });
  }
  return [...latest.values()];
}

function posteriorOf(
  odds: CauseOdds,
  table: CauseTable,
  answers: readonly Answer[],
): readonly number[] {
  const listed = new Set(table.questions.map(({ key }) => key));
  const logs = odds.causes.map((cause, at) => {
    let log = Math.log(odds.priors[at] ?? 0);
    for (const { sight, finding } of answers) {
      log += Math.log(odds.likelihood(sight, cause));
      // A question that the table does not list brings its own likelihoods, if it has any.
      if (!listed.has(sight.question)) log += Math.log(likelihoodUnder(finding, cause));
    }
    return log;
  });
  const best = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - best));
  const sum = weights.reduce((all, weight) => all + weight, 0);
  return weights.map((weight) => weight / sum);
}

function openBenchChecks(
  table: CauseTable,
  estimates: readonly CauseEstimate[],
  sights: readonly Sight[],
): OpenBenchCheck[] {
  return estimates.flatMap(({ cause, probability }) => {
    if (!cause.isBench || probability < BENCH_LEAST) return [];
    const question = tellingQuestion(table, cause.key);
    if (question === undefined || sights.some((s) => s.question === question)) return [];
    return [{ cause, probability, question }];
  });
}

/** The question that tells a cause best from the rest: where its usual outcome is rare elsewhere. */
function tellingQuestion(table: CauseTable, cause: string): string | undefined {
  const scored = table.questions.flatMap(({ key, odds }) => {
    const own = odds[cause];
    const other = odds['*'];
    if (own === undefined || other === undefined) return [];
    const ratios = Object.entries(own).map(
      ([outcome, p]) => p * Math.log((p + 1e-3) / ((other[outcome] ?? 0) + 1e-2)),
    );
    return [{ key, score: ratios.reduce((sum, each) => sum + each, 0) }];
  });
  return scored.sort((a, b) => b.score - a.score)[0]?.key;
}

function causeOf(table: CauseTable, key: string): Cause {
  return (
    table.causes.find((cause) => cause.key === key) ?? {
      key,
      text: key,
      parent: null,
      isBench: false,
      check: '',
      weight: 0,
      isRetired: false,
    }
  );
}

function summarise(
  first: CauseEstimate | undefined,
  standing: LikelyCauses['standing'],
  basis: LikelyCauses['basis'],
  sights: number,
  benchFirst: readonly OpenBenchCheck[],
  next: readonly NextQuestion[],
  source: string,
  odds: CauseOdds,
): string {
  const percent = (p: number) => `${Math.round(p * 100)} %`;
  const parts: string[] = [];
  if (benchFirst[0] !== undefined && !(first?.cause.isBench === true && standing === 'strong')) {
    parts.push(`The bench first: ${benchFirst[0].cause.text}? ${benchFirst[0].cause.check}`);
  }
  if (first === undefined || standing === 'none') {
    parts.push('Nothing points to one cause yet.');
  } else {
    const range = `${percent(first.interval.low)} to ${percent(first.interval.high)}`;
    parts.push(
      `${standing === 'strong' ? 'Most likely' : 'Leaning to'} ${first.cause.text}: ${percent(first.probability)} (${range}).`,
    );
    if (first.like.text !== '') parts.push(first.like.text);
  }
  if (sights === 1) parts.push('One number has several causes and decides nothing.');
  if (next[0] !== undefined && standing !== 'strong') {
    parts.push(`What would move it most: ${next[0].text}.`);
  }
  if (basis === 'starter') {
    parts.push(
      `Few proved cases of its own (${odds.cases}): this leans on the starter table (${source}).`,
    );
  }
  return parts.join(' ');
}
