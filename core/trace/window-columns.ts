import { addNode, addSample, createLevel, openNode, type PyramidLevel } from './pyramid-level.ts';
import type { TraceWindow } from './sample.ts';

/**
 * A window being filled: one node a screen column. Columns without samples become entries with
 * count 0 when they lie in a gap, and no entry at all when the samples are merely sparser than
 * the columns, so that a zoomed-in curve stays joined up.
 */
export interface WindowColumns {
  addSample(tick: number, volts: number, amps: number): void;
  addNode(from: PyramidLevel, node: number): void;
  finish(): TraceWindow;
}

/** Starts a window over `[fromTick, toTick)` with `columns` columns; see `WindowColumns`. */
export function windowColumns(
  fromTick: number,
  toTick: number,
  columns: number,
  gapTicks: number,
): WindowColumns {
  const cells = createLevel(columns);
  for (let i = 0; i < columns; i += 1) openNode(cells, fromTick);
  const perTick = columns / (toTick - fromTick);
  // A node wider than a column reaches over columns that get nothing of their own.
  const covering = createLevel(columns);
  for (let i = 0; i < columns; i += 1) openNode(covering, fromTick);

  const columnOf = (tick: number): number =>
    Math.min(columns - 1, Math.max(0, Math.floor((tick - fromTick) * perTick)));

  return {
    addSample(tick, volts, amps) {
      const at = columnOf(tick);
      if (cells.count[at] === 0) cells.firstTick[at] = tick;
      addSample(cells, at, tick, volts, amps);
    },
    addNode(from, node) {
      const first = Math.max(fromTick, from.firstTick[node]!);
      const last = Math.min(toTick - 1, from.lastTick[node]!);
      const at = columnOf((first + last) / 2);
      if (cells.count[at] === 0) cells.firstTick[at] = first;
      addNode(cells, at, from, node);
      cells.lastTick[at] = last;
      const end = columnOf(last);
      for (let i = columnOf(first); i <= end; i += 1) {
        if (i !== at && covering.count[i] === 0) addNode(covering, i, from, node);
      }
    },
    finish() {
      for (let i = 0; i < columns; i += 1) {
        if (cells.count[i] !== 0 || covering.count[i] === 0) continue;
        const middle = fromTick + (i + 0.5) / perTick;
        cells.firstTick[i] = middle;
        addNode(cells, i, covering, i);
        cells.lastTick[i] = middle;
      }
      return toWindow(cells, fromTick, toTick, gapTicks);
    },
  };
}

function toWindow(
  cells: PyramidLevel,
  fromTick: number,
  toTick: number,
  gapTicks: number,
): TraceWindow {
  const width = (toTick - fromTick) / cells.size;
  const kept = keptColumns(cells, gapTicks);
  const window = emptyWindow(fromTick, toTick, kept.length);
  kept.forEach((at, i) => {
    const count = cells.count[at]!;
    window.count[i] = count;
    window.tick[i] = count === 1 ? cells.firstTick[at]! : fromTick + (at + 0.5) * width;
    window.voltsMin[i] = cells.voltsMin[at]!;
    window.voltsMax[i] = cells.voltsMax[at]!;
    window.voltsMean[i] = cells.voltsSum[at]! / cells.voltsCount[at]!;
    window.ampsMin[i] = cells.ampsMin[at]!;
    window.ampsMax[i] = cells.ampsMax[at]!;
    window.ampsMean[i] = cells.ampsSum[at]! / cells.ampsCount[at]!;
  });
  return window;
}

/** Columns with samples, and the empty ones that lie inside a gap. */
function keptColumns(cells: PyramidLevel, gapTicks: number): number[] {
  const kept: number[] = [];
  let before = -1;
  for (let i = 0; i < cells.size; i += 1) {
    if (cells.count[i] === 0) continue;
    if (before >= 0 && cells.firstTick[i]! - cells.lastTick[before]! > gapTicks) {
      for (let j = before + 1; j < i; j += 1) kept.push(j);
    }
    kept.push(i);
    before = i;
  }
  return kept;
}

/** A window of `entries` entries, all zero. */
export function emptyWindow(fromTick: number, toTick: number, entries: number): TraceWindow {
  const column = () => new Float64Array(entries);
  return {
    fromTick,
    toTick,
    tick: column(),
    count: column(),
    voltsMin: column(),
    voltsMax: column(),
    voltsMean: column(),
    ampsMin: column(),
    ampsMax: column(),
    ampsMean: column(),
  };
}
