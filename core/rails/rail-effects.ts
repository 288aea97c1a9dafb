import { CONDITION } from './outcome-odds.ts';
import type { IndexedFault, RailGraph } from './rail-model.ts';

const { up, down, shorted, pulled, starved, over, driven, asleep } = CONDITION;

/**
 * Writes into `row` the condition of every measurement under the given faults together. Rails that
 * belong up start up and fall when nothing feeds them or an enable is gone, until nothing more falls:
 * so enables that need each other stay up together, as on a board that once started. `healthy` is
 * the row without faults to start from; null computes it.
 */
export function conditionsUnder(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  healthy: Uint8Array | null,
  row: Uint8Array,
): void {
  const { count, isExpected } = graph;
  const state = new Uint8Array(count);
  for (let rail = 0; rail < count; rail++) state[rail] = isExpected[rail] ? up : asleep;
  const isGrounded = new Uint8Array(count);
  spreadShorts(graph, faults, isGrounded);
  const changed = new Set<number>();
  const queue: number[] = [];
  const set = (rail: number, condition: number) => {
    if (state[rail] === asleep) return;
    state[rail] = condition;
    changed.add(rail);
    queue.push(...(graph.children[rail] ?? []), ...(graph.dependants[rail] ?? []));
  };
  for (let rail = 0; rail < count; rail++) {
    if (isGrounded[rail] !== 1) continue;
    changed.add(rail);
    set(rail, shorted);
  }
  for (const { kind, rail, other, pulls } of faults) {
    changed.add(rail);
    if (kind === 'joined') changed.add(other);
    const isOut = kind === 'enable' || (kind === 'source' && !pulls);
    if (isOut && state[rail] === up) set(rail, down);
    if (kind === 'link') queue.push(rail);
  }
  for (let rail = queue.pop(); rail !== undefined; rail = queue.pop()) {
    if (state[rail] === up && !isFed(graph, faults, state, rail)) set(rail, down);
  }
  pull(graph, faults, state, isGrounded, changed);
  if (healthy === null) {
    for (let rail = 0; rail < count; rail++) writeRail(graph, faults, state, isGrounded, rail, row);
    return;
  }
  row.set(healthy);
  for (const rail of changed) {
    writeRail(graph, faults, state, isGrounded, rail, row);
    for (const near of graph.children[rail] ?? []) {
      writeRail(graph, faults, state, isGrounded, near, row);
    }
    for (const near of graph.dependants[rail] ?? []) {
      writeRail(graph, faults, state, isGrounded, near, row);
    }
  }
}

/** A short reaches everything that an unbroken link joins to it. */
function spreadShorts(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  isGrounded: Uint8Array,
): void {
  const queue = faults.filter(({ kind }) => kind === 'short').map(({ rail }) => rail);
  for (let rail = queue.pop(); rail !== undefined; rail = queue.pop()) {
    if (isGrounded[rail] === 1) continue;
    isGrounded[rail] = 1;
    if (graph.isLink[rail]) {
      for (const feed of graph.feeds[rail] ?? []) {
        if (!isCut(faults, rail, feed)) queue.push(feed);
      }
    }
    for (const child of graph.children[rail] ?? []) {
      if (graph.isLink[child] && !isCut(faults, child, rail)) queue.push(child);
    }
  }
}

function isFed(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  state: Uint8Array,
  rail: number,
): boolean {
  const feeds = graph.feeds[rail] ?? [];
  const isLive = (other: number) => state[other] === up;
  if (feeds.length > 0 && !feeds.some((feed) => isLive(feed) && !isCut(faults, rail, feed))) {
    return false;
  }
  return (graph.enablers[rail] ?? []).every(isLive);
}

/**
 * What shorts and joins do to the volts of rails that are otherwise up. A feed that gives way is
 * pulled down, with everything that a link ties it to, and starves what else it feeds.
 */
function pull(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  state: Uint8Array,
  isGrounded: Uint8Array,
  changed: Set<number>,
): void {
  const soften = (rail: number, condition: number): boolean => {
    if (state[rail] !== up) return false;
    state[rail] = condition;
    changed.add(rail);
    return true;
  };
  const pullDown = (start: number) => {
    const queue = [start];
    for (let rail = queue.pop(); rail !== undefined; rail = queue.pop()) {
      if (!soften(rail, pulled)) continue;
      if (graph.isLink[rail]) queue.push(...(graph.feeds[rail] ?? []));
      starve(rail);
    }
  };
  const starve = (start: number) => {
    // A rail at a fraction of its volts feeds nothing but may still give an enable.
    const queue = [...(graph.children[start] ?? [])];
    for (let rail = queue.pop(); rail !== undefined; rail = queue.pop()) {
      const others = (graph.feeds[rail] ?? []).some((feed) => state[feed] === up);
      const isAsked = (graph.enablers[rail] ?? []).every((other) => state[other] !== starved);
      if ((others && isAsked) || !soften(rail, starved)) continue;
      queue.push(...(graph.children[rail] ?? []), ...(graph.dependants[rail] ?? []));
    }
  };
  for (const { kind, rail, other, pulls } of faults) {
    if (kind === 'joined') {
      soften(rail, pulls ? over : driven);
      if (pulls && other >= 0) pullDown(other);
    }
    if (kind === 'source' && pulls && soften(rail, pulled)) starve(rail);
    if (kind !== 'short' || !pulls) continue;
    for (const grounded of changed) {
      if (isGrounded[grounded] !== 1) continue;
      for (const feed of graph.feeds[grounded] ?? []) {
        if (isGrounded[feed] !== 1 && !isCut(faults, grounded, feed)) pullDown(feed);
      }
    }
  }
}

function writeRail(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  state: Uint8Array,
  isGrounded: Uint8Array,
  rail: number,
  row: Uint8Array,
): void {
  const own = state[rail] ?? asleep;
  put(row, graph.volts[rail], own);
  const isAsleep = own === asleep;
  put(row, graph.input[rail], bestFeed(graph, faults, state, rail));
  const isAsked =
    !faults.some((fault) => fault.kind === 'enable' && fault.rail === rail) &&
    (graph.enablers[rail] ?? []).every((other) => isAlive(state[other] ?? down));
  put(row, graph.enable[rail], isAsleep ? asleep : isAsked ? up : down);
  put(row, graph.ohms[rail], ohmsOf(graph, faults, isGrounded, rail));
  for (const { other, at } of graph.between[rail] ?? []) {
    const isJoined = faults.some(
      (fault) => fault.kind === 'joined' && fault.rail === rail && fault.other === other,
    );
    // Two rails that are both grounded read as joined through their shorts.
    const both = isGrounded[rail] === 1 && isGrounded[other] === 1;
    put(row, at, isJoined || both ? CONDITION.joined : CONDITION.apart);
  }
}

/** The input sees the liveliest of its unbroken feeds. */
function bestFeed(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  state: Uint8Array,
  rail: number,
): number {
  let best = asleep;
  let rank = -1;
  for (const feed of graph.feeds[rail] ?? []) {
    const condition = isCut(faults, rail, feed) ? down : (state[feed] ?? down);
    const at = LIVELY.indexOf(condition);
    if (at > rank) {
      rank = at;
      best = condition;
    }
  }
  return best;
}

function ohmsOf(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  isGrounded: Uint8Array,
  rail: number,
): number {
  if (isGrounded[rail] === 1) return CONDITION['ohms-shorted'];
  const usual = graph.usualOhms[rail] ?? 0;
  for (const { kind, rail: a, other: b } of faults) {
    if (kind !== 'joined' || (a !== rail && b !== rail)) continue;
    const partner = a === rail ? b : a;
    if (isGrounded[partner] === 1) return CONDITION['ohms-shorted'];
    if ((graph.usualOhms[partner] ?? 0) < usual) return CONDITION['ohms-lowered'];
  }
  return CONDITION['ohms-normal'];
}

const LIVELY = [asleep, down, shorted, starved, pulled, over, driven, up];

function isAlive(condition: number): boolean {
  return LIVELY.indexOf(condition) >= LIVELY.indexOf(pulled);
}

function isCut(faults: readonly IndexedFault[], rail: number, feed: number): boolean {
  for (const fault of faults) {
    if (fault.kind === 'link' && fault.rail === rail && fault.other === feed) return true;
  }
  return false;
}

function put(row: Uint8Array, at: number | undefined, condition: number): void {
  if (at !== undefined && at >= 0) row[at] = condition;
}
