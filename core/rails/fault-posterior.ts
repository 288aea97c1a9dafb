import { doubleCandidates } from './double-faults.ts';
import { drawOdds } from './draw-odds.ts';
import { SECOND_FAULT } from './fault.ts';
import { logJoinedFit } from './joined-ohms.ts';
import { logNearestShort } from './nearest-short.ts';
import { logLikelihood, type Observation, observationsOf } from './observations.ts';
import { logPassedThrough } from './passed-through.ts';
import { conditionsUnder } from './rail-effects.ts';
import type { FaultVariant, RailModel } from './rail-model.ts';
import type { JudgedReading } from './rail-reading.ts';

/** One explanation: no fault in the tree, one, or two; with its probability. */
export interface Hypothesis {
  /** Indexes into the model's faults; empty = elsewhere. */
  readonly faults: readonly number[];
  /** Same number for explanations that name the same faults and differ in how those show. */
  readonly cause: number;
  readonly probability: number;
  /** Conditions of every measurement under it. */
  readonly conditions: Uint8Array;
}

export interface FaultPosterior {
  /** Negligible ones left out; explanations of one cause stand together. */
  readonly hypotheses: readonly Hypothesis[];
  readonly observations: readonly Observation[];
  /** Marginal probability of each fault of the model. */
  readonly byFault: Float64Array;
  readonly elsewhere: number;
  /** Probability that two faults are needed to explain what was read. */
  readonly double: number;
}

/** One fault often makes the other on the same rail: shorts blow fuses and converters (common practice, no source). */
const CONSEQUENCE = { link: 5, source: 3, joined: 5 } as const;

function consequence(a: FaultVariant, b: FaultVariant): number {
  const [short, other] = a.kind === 'short' ? [a, b] : [b, a];
  if (short.kind !== 'short' || short.sags || other.rail !== short.rail) return 1;
  return other.kind === 'link' || other.kind === 'source' || other.kind === 'joined'
    ? CONSEQUENCE[other.kind]
    : 1;
}

/** Explanations below this share of the best are dropped. */
const NEGLIGIBLE = 1e-5;
const ROOM = 2;

/**
 * Probability of every explanation given the readings, by Bayes' rule over single faults, pairs that
 * the readings call for, and no fault in the tree. Readings count as independent given the faults.
 */
export function faultPosterior(model: RailModel, judged: readonly JudgedReading[]): FaultPosterior {
  const observations = observationsOf(model, judged);
  const { faults, variants, prior } = model;
  const width = model.measurements.length;
  const total = faults.reduce((sum, { weight }) => sum + weight, 0);
  const second = prior.liquid ? SECOND_FAULT.liquid : SECOND_FAULT.dry;
  const logPrior = variants.map(({ fault, share }) =>
    Math.log(((faults[fault]?.weight ?? 0) / total) * share),
  );
  const logDraw = (conditions: Uint8Array) => Math.log(drawOdds(model, prior.draw, conditions));
  const logFit = (variant: FaultVariant, beside: FaultVariant | null = null) =>
    logJoinedFit(model, variant, observations, beside) +
    logNearestShort(model, variant, observations) +
    logPassedThrough(model, variant, observations);
  const causes = new Map<number, number>();
  const causeOf = (key: number) => {
    const known = causes.get(key) ?? causes.size;
    causes.set(key, known);
    return known;
  };
  const raw: { faults: readonly number[]; cause: number; log: number; conditions: Uint8Array }[] = [
    {
      faults: [],
      cause: causeOf(-1),
      log:
        Math.log(prior.elsewhere) +
        logLikelihood(observations, model.healthy) +
        logDraw(model.healthy),
      conditions: model.healthy,
    },
  ];
  for (const [at, variant] of variants.entries()) {
    const { fault } = variant;
    const conditions = model.conditions[at] ?? model.healthy;
    const log =
      Math.log((1 - prior.elsewhere) * (1 - second)) +
      (logPrior[at] ?? 0) +
      logLikelihood(observations, conditions) +
      logDraw(conditions) +
      logFit(variant);
    raw.push({ faults: [fault], cause: causeOf(fault), log, conditions });
  }
  const pairLog = Math.log((1 - prior.elsewhere) * second * 2);
  const bestSingle = raw.reduce((most, { log }) => Math.max(most, log), -Infinity);
  // What two faults show together is only guessed before it is worked out: leave some room.
  const leastLog = bestSingle + Math.log(NEGLIGIBLE) - pairLog - ROOM;
  for (const [a, b] of doubleCandidates(model, observations, logPrior, leastLog)) {
    const [first, other] = [variants[a], variants[b]];
    if (first === undefined || other === undefined) continue;
    const conditions = new Uint8Array(width);
    conditionsUnder(model.graph, [first, other], model.healthy, conditions);
    const log =
      pairLog +
      Math.log(consequence(first, other)) +
      (logPrior[a] ?? 0) +
      (logPrior[b] ?? 0) +
      logLikelihood(observations, conditions) +
      logDraw(conditions) +
      logFit(first, other) +
      logFit(other, first);
    const pair = [Math.min(first.fault, other.fault), Math.max(first.fault, other.fault)] as const;
    const cause = causeOf((pair[0] + 1) * faults.length + pair[1]);
    raw.push({ faults: pair, cause, log, conditions });
  }
  const best = raw.reduce((most, { log }) => Math.max(most, log), -Infinity);
  const kept = raw.filter(({ log }) => log - best > Math.log(NEGLIGIBLE));
  const sum = kept.reduce((all, { log }) => all + Math.exp(log - best), 0);
  const hypotheses = kept
    .map(({ faults: which, cause, log, conditions }) => ({
      faults: which,
      cause,
      probability: Math.exp(log - best) / sum,
      conditions,
    }))
    .sort((a, b) => a.cause - b.cause);
  const byFault = new Float64Array(faults.length);
  let elsewhere = 0;
  let double = 0;
  for (const { faults: which, probability } of hypotheses) {
    // What shows nowhere in this state cannot be held against a rail.
    if (which.every((fault) => model.isHidden[fault])) {
      elsewhere += probability;
      continue;
    }
    if (which.length === 2) double += probability;
    for (const fault of which) byFault[fault] = (byFault[fault] ?? 0) + probability;
  }
  return { hypotheses, observations, byFault, elsewhere, double };
}
