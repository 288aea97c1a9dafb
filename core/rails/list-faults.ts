import type { BoardModel, Rail } from './board-model.ts';
import type { BridgePair } from './bridge-pairs.ts';
import {
  BENCH_FIRST,
  type Fault,
  type FaultKind,
  type FaultPrior,
  KIND_WEIGHT,
  LIQUID_FACTOR,
} from './fault.ts';

/** Every single fault that the tree can have, and the bridges that are thought of, with its weight. */
export function listFaults(
  board: BoardModel,
  prior: FaultPrior,
  bridges: readonly BridgePair[] = [],
): readonly Fault[] {
  const byName = new Map(board.rails.map((rail) => [rail.name, rail]));
  const faults: Fault[] = [];
  const add = (kind: FaultKind, rail: string, other: string | null, text: string) => {
    const key = other === null ? `${kind}:${rail}` : `${kind}:${rail}:${other}`;
    const usual = (prior.kindWeights ?? KIND_WEIGHT)[kind];
    const liquid = prior.liquid ? LIQUID_FACTOR[kind] : 1;
    const isBench = kind === 'source' && byName.get(rail)?.fedBy.length === 0;
    const bench = isBench && prior.kindWeights === null ? BENCH_FIRST : 1;
    const weight = usual * liquid * bench * (prior.factors[key] ?? 1);
    if (weight > 0) faults.push({ key, kind, rail, other, text, weight });
  };
  for (const rail of board.rails) {
    const { name, fedBy, through } = rail;
    add('short', name, null, `a short to ground on ${name}`);
    if (fedBy.length === 0) {
      add(
        'source',
        name,
        null,
        `${name} does not arrive: the bench supply, leads, connector or input fuse`,
      );
    } else if (through !== 'link') {
      add('source', name, null, `the ${through} of ${name} does not run`);
    }
    if (rail.enabledBy.length > 0 || rail.points.some(({ role }) => role === 'enable')) {
      add('enable', name, null, `${name} is not asked to start: its enable is missing`);
    }
    for (const feed of fedBy) {
      const what = through === 'link' ? 'the link itself' : 'the way in';
      add('link', name, feed, `an open link from ${feed} to ${name}: ${what}`);
      const parent = byName.get(feed);
      if (parent !== undefined && isJoinable(rail, parent)) {
        add('joined', name, feed, `${name} and ${feed} joined: a shorted upper switch`);
      }
    }
  }
  for (const { low, high } of bridges) {
    add('joined', low, high, `${low} and ${high} bridged`);
  }
  return faults;
}

/** A converter's or regulator's pass element can join its rail to the higher feed. */
function isJoinable(rail: Rail, feed: Rail): boolean {
  const isActive = rail.through === 'converter' || rail.through === 'regulator';
  const isHigher = Math.abs(feed.nominalV) > Math.abs(rail.nominalV) * (1 + rail.tolerance);
  return isActive && isHigher && Math.sign(feed.nominalV) === Math.sign(rail.nominalV);
}
