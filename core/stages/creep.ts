import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { fitLine } from '../trace/straight-line.ts';
import { blockNoise, straightLines } from './bent-line.ts';
import type { Ammeter } from './board.ts';
import { type Block, joinBlocks } from './piece.ts';

/** A stretch of steady slope, in amps from its start to its end. */
export interface Creep {
  readonly start: number;
  readonly end: number;
  readonly fromA: number;
  readonly toA: number;
}

const SHORTEST_S = 6;
/** Least change over the stretch, as a share of its mean. */
const LEAST_SHARE = 0.1;
const LEAST_BLOCKS = 5;
/** Readings that a slope needs. */
const LEAST_BINS = 10;
const STANDS_OUT = 2.5;
const BUSY_S = 15;
const BUSY_SHARE = 0.2;

/**
 * Finds slow steady slopes in a stretch given as blocks: the exact penalised partition into straight
 * lines, of which those count that change by 10 % of their level or more over 6 s or more, evenly
 * (a charging capacitor does most of its change at once and does not count).
 */
export function findCreeps(fine: readonly Block[], endTick: number, ammeter: Ammeter): Creep[] {
  const { countA, quietA } = ammeter;
  const blocks = untilWhite(fine, countA);
  const n = blocks.length;
  if (n < 2 * LEAST_BLOCKS) return [];
  if ((endTick - blocks[0]!.tick) / TICKS_PER_SECOND < SHORTEST_S) return [];
  const x = blocks.map((b) => (b.tick - blocks[0]!.tick) / TICKS_PER_SECOND);
  const y = blocks.map((b) => b.amps);
  const noise = blockNoise(y, countA);
  // Within one count the error of neighbours is alike: it must not be fitted by steps.
  const lines = straightLines(x, y, Math.hypot(noise, countA / 2), LEAST_BLOCKS);
  const restless = restlessness(x, y, lines);
  const perBlock = blocks.reduce((sum, b) => sum + b.bins, 0) / n;
  const own = Math.max(quietA / Math.sqrt(perBlock), countA / Math.sqrt(12));
  const busy = noise > 3 * own && noise > 0.01 * Math.abs(y.reduce((a, b) => a + b, 0) / n);
  const found: Creep[] = [];
  for (const [k, [from, to]] of lines.entries()) {
    const end = to < n ? blocks[to]!.tick : endTick;
    const creep = steadySlope(
      x.slice(from, to),
      y.slice(from, to),
      blocks[from]!.tick,
      end,
      noise,
      countA,
    );
    if (creep === null) continue;
    if (busy && !standsOutOfWork(creep)) continue;
    let bins = 0;
    for (let i = from; i < to; i++) bins += blocks[i]!.bins;
    if (bins < LEAST_BINS) continue;
    // On a draw that wanders anyway a slope has to stand out.
    const usual = restless.beside(k, Math.sign(creep.toA - creep.fromA));
    if (Math.abs(creep.toA - creep.fromA) < STANDS_OUT * usual) continue;
    const last = found[found.length - 1];
    const sameWay =
      last !== undefined &&
      last.end === creep.start &&
      Math.abs(creep.fromA - last.toA) < 0.3 * Math.abs(creep.toA - creep.fromA) &&
      Math.sign(last.toA - last.fromA) === Math.sign(creep.toA - creep.fromA);
    if (sameWay) {
      found[found.length - 1] = { ...creep, start: last.start, fromA: last.fromA };
    } else found.push(creep);
  }
  return bridged(found);
}

/** Seconds between two slopes of one way that are no rest, when the draw goes on from one to the other. */
const BRIDGE_S = 4;

/** Slopes that one long slope was cut into: it bends, and in between it may look level for a moment. */
function bridged(creeps: readonly Creep[]): Creep[] {
  const out: Creep[] = [];
  for (const creep of creeps) {
    const last = out[out.length - 1];
    const way = Math.sign(creep.toA - creep.fromA);
    const goesOn =
      last !== undefined &&
      creep.start - last.end <= BRIDGE_S * TICKS_PER_SECOND &&
      Math.sign(last.toA - last.fromA) === way &&
      (creep.fromA - last.toA) * way > 0;
    if (goesOn) out[out.length - 1] = { ...creep, start: last.start, fromA: last.fromA };
    else out.push(creep);
  }
  return out;
}

/** Blocks that lines are fitted to at least. */
const ENOUGH = 24;

/**
 * Joins blocks by fours when their noise does not average out: lines through a draw that wanders
 * would follow the wander.
 */
function untilWhite(blocks: readonly Block[], countA: number): readonly Block[] {
  if (blocks.length < 4 * ENOUGH) return blocks;
  const coarse: Block[] = [];
  for (let i = 0; i < blocks.length; i += 4) {
    let block = blocks[i]!;
    for (const next of blocks.slice(i + 1, i + 4)) block = joinBlocks(block, next);
    coarse.push(block);
  }
  const noise = (of: readonly Block[]) =>
    blockNoise(
      of.map((b) => b.amps),
      0,
    );
  // White noise halves; what stays above 0.8 of it, and above the count, is the draw's own.
  return noise(coarse) > Math.max(0.8 * noise(blocks), countA / 2) ? coarse : blocks;
}

/** Whether a slope of a draw that moves with work is long and large enough to be one of its own. */
function standsOutOfWork(creep: Creep): boolean {
  const seconds = (creep.end - creep.start) / TICKS_PER_SECOND;
  const mean = (creep.fromA + creep.toA) / 2;
  return seconds >= BUSY_S && Math.abs(creep.toA - creep.fromA) >= BUSY_SHARE * mean;
}

function steadySlope(
  x: number[],
  y: number[],
  start: number,
  end: number,
  noise: number,
  countA: number,
): Creep | null {
  const seconds = (end - start) / TICKS_PER_SECOND;
  if (seconds < SHORTEST_S || x.length < LEAST_BLOCKS) return null;
  const line = fitLine(x, y);
  const fromA = line.intercept + line.slope * x[0]!;
  const change = line.slope * seconds;
  const mean = Math.abs(y.reduce((a, b) => a + b, 0) / y.length);
  if (Math.abs(change) < Math.max(LEAST_SHARE * mean, 0.004, 2.5 * countA)) return null;
  // Nothing but noise may be left over beside the line: steps and bursts leave more.
  const left = line.residualSquares;
  const noisy = 3 * noise * noise * x.length;
  if (left > Math.max(0.05 * line.explainedSquares, noisy)) return null;
  // The slope has to be beyond doubt against what is left over (F of 40 on one degree of freedom).
  if (line.explainedSquares * (x.length - 2) < 40 * left) return null;
  // Even: the first and the last half each carry a fair part of the change.
  const half = x.length >> 1;
  const early = fitLine(x.slice(0, half + 1), y.slice(0, half + 1)).slope;
  const late = fitLine(x.slice(half), y.slice(half)).slope;
  const least = 0.25 * Math.abs(line.slope);
  if (early * Math.sign(line.slope) < least || late * Math.sign(line.slope) < least) return null;
  // No steps: no single difference between blocks carries the change.
  let largest = 0;
  for (let i = 1; i < y.length; i++) largest = Math.max(largest, Math.abs(y[i]! - y[i - 1]!));
  if (largest - countA - 3 * noise > 0.45 * Math.abs(change)) return null;
  return { start, end, fromA, toA: fromA + change };
}

/** How far each line runs and how far it is from meeting the next: what the draw does anyway. */
function restlessness(x: number[], y: number[], lines: readonly [number, number][]) {
  let lastEnd: number | null = null;
  const each = lines.map(([from, to]) => {
    const line = fitLine(x.slice(from, to), y.slice(from, to));
    const begin = line.intercept + line.slope * x[from]!;
    const end = line.intercept + line.slope * x[to - 1]!;
    const jump = lastEnd === null ? 0 : Math.abs(begin - lastEnd);
    lastEnd = end;
    return { change: end - begin, jump, seconds: x[to - 1]! - x[from]! };
  });
  const all = each.reduce((sum, line) => sum + line.seconds, 0);
  /**
   * Mean of what the other lines do by the time they take (an edge of a second before a slope of a
   * minute says nothing of the minute), changes the same way as line `k` left out.
   */
  const beside = (k: number, way: number) => {
    let sum = 0;
    each.forEach((line, i) => {
      const same = Math.sign(line.change) === way;
      if (i !== k) sum += line.seconds * (line.jump + (same ? 0 : Math.abs(line.change)));
    });
    return (sum * each.length) / Math.max(1, each.length - 1) / Math.max(all, 1e-9);
  };
  return { beside };
}
