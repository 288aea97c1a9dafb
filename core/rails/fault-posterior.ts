import { doubleCandidates } from './double-faults.ts';
import { ELSEWHERE, SECOND_FAULT } from './fault.ts';
import { logLikelihood, type Observation, observationsOf } from './observations.ts';
import { conditionsUnder } from './rail-effects.ts';
import type { RailModel } from './rail-model.ts';
import type { JudgedReading } from './rail-reading.ts';

/** One explanation: no fault in the tree, one, or two; with its probability. */
export interface Hypothesis {
  /** Indexes into the model's faults; empty = elsewhere. */
  readonly faults: readonly number[];
  readonly probability: number;
  /** Conditions of every measurement under it. */
  readonly conditions: Uint8Array;
}

export interface FaultPosterior {
  readonly hypotheses: readonly Hypothesis[];
  readonly observations: readonly Observation[];
  /** Marginal probability of each fault of the model. */
  readonly byFault: Float64Array;
  readonly elsewhere: number;
  /** Probability that two faults are needed to explain what was read. */
  readonly double: number;
}

/** Explanations below this share of the best are dropped. */
const NEGLIGIBLE = 1e-5;

/**
 * Probability of every explanation given the readings, by Bayes' rule over single faults, pairs that
 * the readings call for, and no fault in the tree. Readings count as independent given the faults.
 */
export function faultPosterior(model: RailModel, judged: readonly JudgedReading[]): FaultPosterior {
  const observations = observationsOf(model, judged);
  const { faults, prior } = model;
  const width = model.measurements.length;
  const total = faults.reduce((sum, { weight }) => sum + weight, 0);
  const second = prior.liquid ? SECOND_FAULT.liquid : SECOND_FAULT.dry;
  const logPrior = faults.map(({ weight }) => Math.log(weight / total));
  const raw: { faults: readonly number[]; log: number; conditions: Uint8Array }[] = [
    {
      faults: [],
      log: Math.log(ELSEWHERE) + logLikelihood(observations, model.healthy),
      conditions: model.healthy,
    },
  ];
  for (let at = 0; at < faults.length; at++) {
    const conditions = model.conditions.subarray(at * width, (at + 1) * width);
    const log =
      Math.log((1 - ELSEWHERE) * (1 - second)) +
      (logPrior[at] ?? 0) +
      logLikelihood(observations, conditions);
    raw.push({ faults: [at], log, conditions });
  }
  for (const [a, b] of doubleCandidates(model, observations, logPrior)) {
    const conditions = new Uint8Array(width);
    const pair = [a, b].map((index) => model.indexed[index]).filter((each) => each !== undefined);
    conditionsUnder(model.graph, pair, model.healthy, conditions);
    const log =
      Math.log((1 - ELSEWHERE) * second * 2) +
      (logPrior[a] ?? 0) +
      (logPrior[b] ?? 0) +
      logLikelihood(observations, conditions);
    raw.push({ faults: [a, b], log, conditions });
  }
  const best = raw.reduce((most, { log }) => Math.max(most, log), -Infinity);
  const kept = raw.filter(({ log }) => log - best > Math.log(NEGLIGIBLE));
  const sum = kept.reduce((all, { log }) => all + Math.exp(log - best), 0);
  const hypotheses = kept.map(({ faults: which, log, conditions }) => ({
    faults: which,
    probability: Math.exp(log - best) / sum,
    conditions,
  }));
  const byFault = new Float64Array(faults.length);
  let elsewhere = 0;
  let double = 0;
  for (const { faults: which, probability } of hypotheses) {
    if (which.length === 0) elsewhere += probability;
    if (which.length === 2) double += probability;
    for (const fault of which) byFault[fault] = (byFault[fault] ?? 0) + probability;
  }
  return { hypotheses, observations, byFault, elsewhere, double };
}
