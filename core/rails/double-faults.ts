import { type Observation, oddsOf } from './observations.ts';
import type { RailModel } from './rail-model.ts';

/** At most this many pairs are weighed exactly. */
const MOST_PAIRS = 160;
/** At most this many pairs that take away both feeds of a rail are looked at. */
const MOST_SEARCHED = 2000;
/** At most this many faults are paired with each other. */
const MOST_PARTNERS = 120;
/** A fault explains a reading when the reading is at least this likely under it. */
const EXPLAINS = 0.1;
/** A reading is odd when a healthy board hardly gives it. */
const ODD = 0.05;

/**
 * Pairs of fault variants worth weighing: each explains an odd reading that the other leaves unexplained, or
 * they take away two feeds of one rail. Without odd readings a second fault has nothing to show, and
 * there are none.
 */
export function doubleCandidates(
  model: RailModel,
  observations: readonly Observation[],
  logPrior: readonly number[],
): readonly (readonly [number, number])[] {
  const odd = observations.filter(
    ({ measurement, verdict, odds }) =>
      oddsOf(odds, model.healthy[measurement] ?? 0, verdict) < ODD,
  );
  if (odd.length === 0) return [];
  const logOf = (variant: number, { measurement, verdict, odds }: Observation) =>
    Math.log(oddsOf(odds, model.conditions[variant]?.[measurement] ?? 0, verdict));
  const isOdd = observations.map((each) => odd.includes(each));
  const explainers = model.variants.flatMap(({ fault }, variant) => {
    const logs = observations.map((each) => logOf(variant, each));
    const explains = logs.some((log, at) => isOdd[at] === true && log > Math.log(EXPLAINS));
    if (!explains) return [];
    // How well it fits what it can be blamed for: normal readings, and the odd ones it explains.
    const fit = logs.reduce(
      (sum, log, at) => (isOdd[at] ? sum + Math.max(log, -2) : sum + log),
      logPrior[variant] ?? 0,
    );
    return [{ fault, variant, logs, fit }];
  });
  explainers.sort((a, b) => b.fit - a.fit);
  const partners = explainers.slice(0, MOST_PARTNERS);
  const pairs: { pair: readonly [number, number]; score: number }[] = [];
  for (const [i, a] of partners.entries()) {
    for (const b of partners.slice(i + 1)) {
      if (a.fault === b.fault) continue;
      let score = (logPrior[a.variant] ?? 0) + (logPrior[b.variant] ?? 0);
      let helpsA = false;
      let helpsB = false;
      for (let at = 0; at < isOdd.length; at++) {
        const [logA, logB] = [a.logs[at] ?? 0, b.logs[at] ?? 0];
        if (isOdd[at]) {
          score += Math.max(logA, logB);
          if (logA > logB + 1) helpsA = true;
          if (logB > logA + 1) helpsB = true;
        } else score += Math.min(logA, logB);
      }
      if (helpsA && helpsB) pairs.push({ pair: [a.variant, b.variant], score });
    }
  }
  pairs.sort((a, b) => b.score - a.score);
  const chosen = pairs.slice(0, MOST_PAIRS).map(({ pair }) => pair);
  const normal = observations.filter((each) => !odd.includes(each));
  const fitOf = ([a, b]: readonly [number, number]) =>
    normal.reduce(
      (sum, each) => sum + Math.min(logOf(a, each), logOf(b, each)),
      (logPrior[a] ?? 0) + (logPrior[b] ?? 0),
    );
  const ored = bothFeedsGone(model, odd).map((pair) => ({ pair, fit: fitOf(pair) }));
  ored.sort((a, b) => b.fit - a.fit);
  return [...chosen, ...ored.slice(0, MOST_PAIRS).map(({ pair }) => pair)];
}

/** A rail with two feeds falls only when both are gone: pairs that no single fault hints at. */
function bothFeedsGone(
  model: RailModel,
  odd: readonly Observation[],
): (readonly [number, number])[] {
  const { graph } = model;
  const found: (readonly [number, number])[] = [];
  const isAbove = new Set<number>();
  const climb = (rail: number) => {
    if (isAbove.has(rail)) return;
    isAbove.add(rail);
    for (const other of [...(graph.feeds[rail] ?? []), ...(graph.enablers[rail] ?? [])])
      climb(other);
  };
  const nameAt = new Map(model.board.rails.map(({ name }, index) => [name, index]));
  for (const { measurement } of odd) {
    climb(nameAt.get(model.measurements[measurement]?.rail ?? '') ?? -1);
  }
  for (const rail of isAbove) {
    const [first, second, ...more] = graph.feeds[rail] ?? [];
    if (first === undefined || second === undefined || more.length > 0) continue;
    const killers = (feed: number) =>
      model.variants.flatMap(({ kind, rail: at, other, pulls }, variant) => {
        if (kind === 'link' && at === rail && other === feed) return [variant];
        const volts = graph.volts[feed] ?? -1;
        if (volts < 0 || pulls) return [];
        const under = model.conditions[variant]?.[volts];
        return under !== model.healthy[volts] && kind !== 'joined' ? [variant] : [];
      });
    const [left, right] = [killers(first), killers(second)];
    for (const a of left) for (const b of right) if (a !== b) found.push(a < b ? [a, b] : [b, a]);
  }
  const unique = new Map(found.map((pair) => [`${pair[0]} ${pair[1]}`, pair]));
  return [...unique.values()].slice(0, MOST_SEARCHED);
}
