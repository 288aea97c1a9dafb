import { CONDITION } from './outcome-odds.ts';
import type { IndexedFault, RailGraph } from './rail-model.ts';

const { up, down, shorted, pulled, starved, over, driven, asleep, sagging, loaded } = CONDITION;

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
  spreadShorts(graph, faults, isGrounded, LEAK);
  spreadShorts(graph, faults, isGrounded, SHORT);
  const changed = new Set<number>();
  const queue: number[] = [];
  const set = (rail: number, condition: number) => {
    if (state[rail] === asleep) return;
    state[rail] = condition;
    changed.add(rail);
    queue.push(...(graph.children[rail] ?? []), ...(graph.dependants[rail] ?? []));
  };
  for (let rail = 0; rail < count; rail++) {
    if (isGrounded[rail] === 0) continue;
    changed.add(rail);
    if (isGrounded[rail] === SHORT) set(rail, shorted);
  }
  for (const { kind, rail, other, pulls, sags } of faults) {
    changed.add(rail);
    if (kind === 'joined') changed.add(other);
    const isOut = (kind === 'enable' || kind === 'source') && !pulls && !sags;
    if (isOut && state[rail] === up) set(rail, down);
    if (kind === 'link') queue.push(rail);
    // With its feed in a low mode the board never asks for the rails that it sequences.
    if (kind === 'source' && pulls && sags) {
      for (const fed of sequencedBehind(graph, rail)) {
        if (state[fed] === up) set(fed, down);
      }
    }
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

/** What a rail's way to ground is like, beside its usual load. */
const SHORT = 1;
const LEAK = 2;

/** A short or a leak reaches everything that an unbroken link joins to it. */
function spreadShorts(
  graph: RailGraph,
  faults: readonly IndexedFault[],
  isGrounded: Uint8Array,
  as: typeof SHORT | typeof LEAK,
): void {
  const queue = faults
    .filter(({ kind, sags }) => kind === 'short' && sags === (as === LEAK))
    .map(({ rail }) => rail);
  for (let rail = queue.pop(); rail !== undefined; rail = queue.pop()) {
    if (isGrounded[rail] === as) continue;
    isGrounded[rail] = as;
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

/** Rails past this one that the board asks for by itself, in states of its own or by a signal. */
function sequencedBehind(graph: RailGraph, start: number): readonly number[] {
  const seen = new Set<number>();
  const queue = [...(graph.children[start] ?? [])];
  for (let rail = queue.pop(); rail !== undefined; rail = queue.pop()) {
    if (seen.has(rail)) continue;
    seen.add(rail);
    queue.push(...(graph.children[rail] ?? []));
  }
  return [...seen].filter((rail) => graph.isSequenced[rail] === true);
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
  /** Volts that give way take along whatever has nothing else to hold on to. */
  const sag = (start: number, condition: number) => {
    const queue = [start];
    for (let rail = queue.pop(); rail !== undefined; rail = queue.pop()) {
      if (!soften(rail, condition)) continue;
      for (const child of graph.children[rail] ?? []) {
        const isHeld = (graph.feeds[child] ?? []).some((feed) => state[feed] === up);
        if (graph.follows[child] === true && !isHeld) queue.push(child);
      }
    }
  };
  for (let rail = 0; rail < graph.count; rail++) {
    if (isGrounded[rail] === LEAK) soften(rail, loaded);
  }
  for (const { kind, rail, other, pulls, sags } of faults) {
    if (kind === 'source' && sags) sag(rail, pulls ? pulled : sagging);
    if (kind === 'link' && sags) {
      const isHeld = (graph.feeds[rail] ?? []).some(
        (feed) => feed !== other && state[feed] === up && !isCut(faults, rail, feed),
      );
      if (!isHeld && graph.follows[rail] === true) sag(rail, sagging);
    }
    if (kind === 'joined') {
      soften(rail, pulls ? over : driven);
      if (pulls && other >= 0) pullDown(other);
    }
    const isLow = (kind === 'source' || kind === 'enable') && pulls && !sags;
    if (isLow && soften(rail, pulled)) starve(rail);
    if (kind !== 'short' || !pulls) continue;
    for (const grounded of changed) {
      if (isGrounded[grounded] !== SHORT) continue;
      for (const feed of graph.feeds[grounded] ?? []) {
        if (isGrounded[feed] !== SHORT && !isCut(faults, grounded, feed)) pullDown(feed);
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
    const both = isGrounded[rail] === SHORT && isGrounded[other] === SHORT;
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
    const own = isCut(faults, rail, feed) ? down : (state[feed] ?? down);
    const isOhmic = own === up && isWeak(faults, rail, feed);
    const condition = isOhmic ? sagging : own;
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
  if (isGrounded[rail] === SHORT) return CONDITION['ohms-shorted'];
  if (isGrounded[rail] === LEAK) return CONDITION['ohms-leaky'];
  const usual = graph.usualOhms[rail] ?? 0;
  for (const { kind, rail: a, other: b } of faults) {
    if (kind !== 'joined' || (a !== rail && b !== rail)) continue;
    const partner = a === rail ? b : a;
    if (isGrounded[partner] === SHORT) return CONDITION['ohms-shorted'];
    if ((graph.usualOhms[partner] ?? 0) < usual) return CONDITION['ohms-lowered'];
  }
  return CONDITION['ohms-normal'];
}

const LIVELY = [asleep, down, shorted, starved, pulled, sagging, over, driven, loaded, up];

function isAlive(condition: number): boolean {
  return LIVELY.indexOf(condition) >= LIVELY.indexOf(pulled);
}

function isCut(faults: readonly IndexedFault[], rail: number, feed: number): boolean {
  for (const fault of faults) {
    const isHere = fault.kind === 'link' && fault.rail === rail && fault.other === feed;
    if (isHere && !fault.sags) return true;
  }
  return false;
}

function isWeak(faults: readonly IndexedFault[], rail: number, feed: number): boolean {
  return faults.some(
    (fault) => fault.kind === 'link' && fault.sags && fault.rail === rail && fault.other === feed,
  );
}

function put(row: Uint8Array, at: number | undefined, condition: number): void {
  if (at !== undefined && at >= 0) row[at] = condition;
}
