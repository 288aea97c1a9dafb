import { packLevel, unpackLevel } from './pyramid-bytes.ts';
import {
  addNode,
  addSample,
  createLevel,
  firstNodeReaching,
  openNode,
  type PyramidLevel,
} from './pyramid-level.ts';
import type { TraceColumns, TraceWindow } from './sample.ts';
import { emptyWindow, windowColumns } from './window-columns.ts';
import { gapTicksFor } from './window-of-samples.ts';

/** Most samples in one node of the lowest level. */
const NODE_SAMPLES = 64;
/** Nodes of one level that make a node of the next. */
const FAN_IN = 4;
/** A node is used whole when it is at most this share of a column wide. */
const WHOLE_SHARE = 1 / 4;
/** Fewest samples a column from which nodes draw as well as samples do. */
const SAMPLES_A_COLUMN = 32;

/**
 * A run reduced to nodes of at most 64 samples (and nodes of nodes), each with the lowest, the
 * highest and the mean of volts and amps, so that any window of it is drawn without its samples.
 * Nodes end at gaps: none reaches over one.
 */
export interface Pyramid {
  /** Samples so far. */
  readonly samples: number;
  /** Tick of the newest sample; -1 when there is none. */
  readonly lastTick: number;
  /**
   * Adds samples at the end; ticks must not decrease. `NaN` is a reading that was not taken. How
   * the samples of a run are split over calls changes nothing.
   */
  append(columns: TraceColumns): void;
  /**
   * `[fromTick, toTick)` reduced to at most `columns` entries (see `windowOfSamples` for what an
   * entry is). Every extreme of the stretch is in it, at most one column or half a node away from
   * its place: nodes are not split at column borders. Where `isTooCoarse` says so, read
   * the samples of the stretch and use `windowOfSamples` instead.
   */
  window(fromTick: number, toTick: number, columns: number): TraceWindow;
  /** Whether the stretch holds so few samples a column that its nodes would draw as blocks. */
  isTooCoarse(fromTick: number, toTick: number, columns: number): boolean;
  /** The nodes, packed; `pyramidFromBytes` reads them and can go on appending. */
  toBytes(): Uint8Array;
}

/** A pyramid without samples. */
export function createPyramid(): Pyramid {
  return pyramidOver(createLevel());
}

/** Reads what `Pyramid.toBytes` wrote. Throws `bad-chunk` when the bytes are damaged. */
export function pyramidFromBytes(bytes: Uint8Array): Pyramid {
  return pyramidOver(unpackLevel(bytes));
}

function pyramidOver(lowest: PyramidLevel): Pyramid {
  const levels = [lowest];
  let samples = 0;
  for (let i = 0; i < lowest.size; i += 1) samples += lowest.count[i]!;
  // All but the newest node are closed.
  for (let i = 0; i + 1 < lowest.size; i += 1) closeNode(levels, i);

  const add = (tick: number, volts: number, amps: number): void => {
    let at = lowest.size - 1;
    if (at < 0) at = openNode(lowest, tick);
    else if (lowest.count[at]! >= NODE_SAMPLES || isAfterGap(lowest, at, tick)) {
      closeNode(levels, at);
      at = openNode(lowest, tick);
    }
    addSample(lowest, at, tick, volts, amps);
  };

  return {
    get samples() {
      return samples;
    },
    get lastTick() {
      return lowest.size === 0 ? -1 : lowest.lastTick[lowest.size - 1]!;
    },
    append({ ticks, volts, amps }) {
      for (let i = 0; i < ticks.length; i += 1) add(ticks[i]!, volts[i]!, amps[i]!);
      samples += ticks.length;
    },
    window(fromTick, toTick, columns) {
      if (lowest.size === 0 || !(toTick > fromTick) || columns < 1) {
        return emptyWindow(fromTick, toTick, 0);
      }
      const gapTicks = gapTicksFor(usualInterval(lowest));
      const filling = windowColumns(fromTick, toTick, columns, gapTicks);
      const wholeTicks = ((toTick - fromTick) / columns) * WHOLE_SHARE;
      visit(levels, fromTick, toTick, wholeTicks, (level, node) => filling.addNode(level, node));
      return filling.finish();
    },
    isTooCoarse(fromTick, toTick, columns) {
      const first = firstNodeReaching(lowest, fromTick);
      const beyond = firstNodeReaching(lowest, toTick);
      // The node that reaches over toTick counts too.
      const nodes = Math.min(lowest.size, beyond + 1) - first;
      return nodes * NODE_SAMPLES < columns * SAMPLES_A_COLUMN;
    },
    toBytes: () => packLevel(lowest),
  };
}

/** Passes a closed node of the lowest level up: every full group of nodes becomes one node above. */
function closeNode(levels: PyramidLevel[], node: number): void {
  let closed = node;
  for (let up = 1; ; up += 1) {
    let level = levels[up];
    if (level === undefined) {
      level = createLevel();
      levels.push(level);
    }
    const below = levels[up - 1]!;
    const parent = Math.floor(closed / FAN_IN);
    if (parent === level.size) openNode(level, below.firstTick[closed]!);
    addNode(level, parent, below, closed);
    if (closed % FAN_IN !== FAN_IN - 1) return;
    closed = parent;
  }
}

/** Whether `tick` comes after a silence that nobody would draw a line across. */
function isAfterGap(level: PyramidLevel, at: number, tick: number): boolean {
  const silence = tick - level.lastTick[at]!;
  if (silence <= gapTicksFor(0)) return false;
  const own = meanInterval(level, at);
  const usual = own > 0 || at === 0 ? own : meanInterval(level, at - 1);
  return usual > 0 && silence > gapTicksFor(usual);
}

function meanInterval(level: PyramidLevel, at: number): number {
  const count = level.count[at]!;
  return count < 2 ? 0 : (level.lastTick[at]! - level.firstTick[at]!) / (count - 1);
}

/** Median of the mean intervals of at most a few hundred nodes spread over the run. */
function usualInterval(level: PyramidLevel): number {
  const stride = Math.max(1, Math.floor(level.size / 256));
  const seen: number[] = [];
  for (let i = 0; i < level.size; i += stride) {
    const interval = meanInterval(level, i);
    if (interval > 0) seen.push(interval);
  }
  seen.sort((a, b) => a - b);
  return seen[seen.length >>> 1] ?? 0;
}

/** Calls `use` in time order with the fewest nodes that cover the stretch finely enough. */
function visit(
  levels: readonly PyramidLevel[],
  fromTick: number,
  toTick: number,
  wholeTicks: number,
  use: (level: PyramidLevel, node: number) => void,
): void {
  const lowest = levels[0]!;
  const end = lowest.size;
  let node = firstNodeReaching(lowest, fromTick);
  while (node < end && lowest.firstTick[node]! < toTick) {
    let up = 0;
    let index = node;
    // Climb while this node starts a group that is complete, narrow enough and inside the window.
    while (up + 1 < levels.length && index % FAN_IN === 0) {
      const above = levels[up + 1]!;
      const parent = index / FAN_IN;
      const isComplete = (index + FAN_IN) * FAN_IN ** up < end;
      if (!isComplete || parent >= above.size) break;
      if (above.lastTick[parent]! - above.firstTick[parent]! > wholeTicks) break;
      if (above.firstTick[parent]! < fromTick || above.lastTick[parent]! >= toTick) break;
      up += 1;
      index = parent;
    }
    use(levels[up]!, index);
    node += FAN_IN ** up;
  }
}
