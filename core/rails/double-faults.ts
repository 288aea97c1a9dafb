import { type Observation, oddsOf } from './observations.ts';
import type { RailModel } from './rail-model.ts';

/** At most this many pairs are weighed exactly. */
const MOST_PAIRS = 80;
/** At most this many faults are looked at that take away one feed of a rail with two. */
const MOST_A_FEED = 12;
/** At most this many shorts are paired with the links that they may have blown. */
const MOST_BLOWN = 24;
/** At most this many faults are paired with each other. */
const MOST_PARTNERS = 90;
/** A fault explains a reading when the reading is at least this likely under it. */
const EXPLAINS = 0.1;
/** A reading is odd when a healthy board hardly gives it. */
const ODD = 0.05;

/**
 * Pairs of fault variants worth weighing: each explains an odd reading that the other leaves unexplained, or
 * they take away two feeds of one rail. Without odd readings a second fault has nothing to show, and
 * there are none.
 * @param leastLog natural log of prior times likelihood below which a pair is not worth weighing.
 */
export function doubleCandidates(
  model: RailModel,
  observations: readonly Observation[],
  logPrior: readonly number[],
  leastLog: number,
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
    const row = model.conditions[variant] ?? model.healthy;
    const explains = odd.some(
      ({ measurement, verdict, odds }) => oddsOf(odds, row[measurement] ?? 0, verdict) > EXPLAINS,
    );
    if (!explains) return [];
    const logs = observations.map((each) => logOf(variant, each));
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
      if (helpsA && helpsB && score > leastLog) pairs.push({ pair: [a.variant, b.variant], score });
    }
  }
  pairs.sort((a, b) => b.score - a.score);
  const chosen = pairs.slice(0, MOST_PAIRS).map(({ pair }) => pair);
  const normal = observations.filter((each) => !odd.includes(each));
  const fitOf = (variant: number) =>
    normal.reduce((sum, each) => sum + logOf(variant, each), logPrior[variant] ?? 0);
  const ored = bothFeedsGone(model, odd, fitOf).filter(({ fit }) => fit > leastLog);
  ored.sort((a, b) => b.fit - a.fit);
  const blown = blownLinks(
    model,
    partners.map(({ variant }) => variant),
  );
  return [...chosen, ...ored.slice(0, MOST_PAIRS).map(({ pair }) => pair), ...blown];
}

/** A short and the fuse that it blew: the open link hides the short from what lies before it. */
function blownLinks(model: RailModel, suspects: readonly number[]): (readonly [number, number])[] {
  const { graph, variants } = model;
  const openAt = new Map<number, number[]>();
  for (const [at, { kind, rail, sags }] of variants.entries()) {
    const isOpen = kind === 'link' && !sags && graph.isLink[rail] === true;
    if (isOpen) openAt.set(rail, [...(openAt.get(rail) ?? []), at]);
  }
  const pairs: (readonly [number, number])[] = [];
  for (const at of suspects) {
    const variant = variants[at];
    if (variant?.kind !== 'short' || variant.sags) continue;
    // The link into the shorted rail, and those into rails that it is linked to.
    const near = [variant.rail, ...(graph.feeds[variant.rail] ?? [])];
    for (const rail of near) {
      for (const open of openAt.get(rail) ?? []) {
        if (pairs.length < MOST_BLOWN) pairs.push([Math.min(at, open), Math.max(at, open)]);
      }
    }
  }
  return pairs;
}

/** A rail with two feeds falls only when both are gone: pairs that no single fault hints at. */
function bothFeedsGone(
  model: RailModel,
  odd: readonly Observation[],
  fitOf: (variant: number) => number,
): { pair: readonly [number, number]; fit: number }[] {
  const { graph } = model;
  const found = new Map<number, { pair: readonly [number, number]; fit: number }>();
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
      model.variants
        .flatMap(({ kind, rail: at, other, pulls, sags }, variant) => {
          const volts = graph.volts[feed] ?? -1;
          const isOpen = kind === 'link' && !sags && at === rail && other === feed;
          const isDown =
            volts >= 0 &&
            !pulls &&
            !sags &&
            kind !== 'joined' &&
            model.conditions[variant]?.[volts] !== model.healthy[volts];
          return isOpen || isDown ? [{ variant, fit: fitOf(variant) }] : [];
        })
        .sort((a, b) => b.fit - a.fit)
        .slice(0, MOST_A_FEED);
    const right = killers(second);
    for (const a of killers(first)) {
      for (const b of right) {
        if (a.variant === b.variant) continue;
        const pair = [Math.min(a.variant, b.variant), Math.max(a.variant, b.variant)] as const;
        // Normal readings count in both, which is hard on the pair by a few hundredths each.
        found.set(pair[0] * model.variants.length + pair[1], { pair, fit: a.fit + b.fit });
      }
    }
  }
  return [...found.values()];
}
