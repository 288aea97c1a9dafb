import type { TraceWindow } from '../../core/trace/sample.ts';

/** Where a stretch is drawn: pixels for ticks and for values. */
export interface Plane {
  readonly x: (tick: number) => number;
  readonly y: (value: number) => number;
}

export interface TracePaths {
  /** The mean of each column as a line, broken at gaps. */
  readonly line: string;
  /** Lowest to highest of each column, where they differ by more than a pixel. */
  readonly band: string;
}

interface Columns {
  readonly min: Float64Array;
  readonly max: Float64Array;
  readonly mean: Float64Array;
}

/**
 * SVG path data of one quantity of a window. Columns without a value break the line: a gap is
 * drawn as a gap. A lone column between gaps is drawn as a dot's width.
 */
export function tracePaths(window: TraceWindow, columns: Columns, plane: Plane): TracePaths {
  let line = '';
  let band = '';
  let stretch: number[] = [];
  const close = (): void => {
    if (stretch.length === 0) return;
    line += lineThrough(window, columns, plane, stretch);
    band += bandAlong(window, columns, plane, stretch);
    stretch = [];
  };
  for (let i = 0; i < window.count.length; i += 1) {
    const isThere = window.count[i]! > 0 && Number.isFinite(columns.mean[i]!);
    if (isThere) stretch.push(i);
    else close();
  }
  close();
  return { line, band };
}

function lineThrough(window: TraceWindow, columns: Columns, plane: Plane, at: number[]): string {
  let path = '';
  for (const i of at) {
    const point = `${round(plane.x(window.tick[i]!))} ${round(plane.y(columns.mean[i]!))}`;
    path += path === '' ? `M${point}` : `L${point}`;
  }
  return at.length === 1 ? `${path}h1` : path;
}

function bandAlong(window: TraceWindow, columns: Columns, plane: Plane, at: number[]): string {
  let isWorthIt = false;
  let up = '';
  let down = '';
  for (const i of at) {
    const x = round(plane.x(window.tick[i]!));
    const high = round(plane.y(columns.max[i]!));
    const low = round(plane.y(columns.min[i]!));
    if (low - high > 1) isWorthIt = true;
    up += up === '' ? `M${x} ${high}` : `L${x} ${high}`;
    down = `L${x} ${low}${down}`;
  }
  return isWorthIt ? `${up}${down}Z` : '';
}

function round(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}
