import { scaleLinear } from 'd3-scale';
import type { StageReport } from '../stages/stage.ts';
import { TICKS_PER_SECOND, type TraceWindow } from '../trace/sample.ts';
import { curvePath } from './curve-path.ts';
import { type MarkPin, pinMarks } from './mark-pins.ts';
import { layStrip, type StripCell } from './stage-strip.ts';

/** A grid line and the number beside it; `at` in the plot's own units. */
export interface AxisTick {
  readonly at: number;
  readonly text: string;
}

/** A run drawn: SVG path data and places in a box of `width` x `height` units, y down. */
export interface RunPlot {
  readonly width: number;
  readonly height: number;
  /** The frame that the curves lie in. */
  readonly frame: {
    readonly left: number;
    readonly top: number;
    readonly right: number;
    readonly bottom: number;
  };
  readonly amps: string;
  readonly volts: string;
  readonly ampsTicks: readonly AxisTick[];
  readonly voltsTicks: readonly AxisTick[];
  readonly timeTicks: readonly AxisTick[];
  readonly ampsUnit: 'A' | 'mA';
  /** The supply's current limit, when it lies inside the frame. */
  readonly limit: { readonly at: number; readonly text: string } | null;
  readonly pins: readonly MarkPin[];
  readonly strip: readonly StripCell[];
  readonly stripTop: number;
  readonly stripHeight: number;
}

const WIDTH = 672;
const FRAME = { left: 46, top: 34, right: 628, bottom: 172 } as const;
const STRIP_TOP = 196;
const STRIP_HEIGHT = 24;
/** Beyond this ratio one axis would press the smaller run flat. */
const SHARED_UP_TO = 4;
const HEIGHT = STRIP_TOP + STRIP_HEIGHT + 2;

/**
 * Draws a run: the amps curve with the spread of each column, volts, limit, marks and the strip
 * of its stages on one time axis. The volts axis reaches `setV`, so that a fed rail pulled down
 * looks like one. `topA` (amps) is the least height of the amps axis, so that
 * two runs can share one. Null when no column holds a reading of the current.
 */
export function drawRunPlot(o: {
  readonly window: TraceWindow;
  readonly report: StageReport;
  readonly limitA: number | null;
  readonly setV: number | null;
  readonly topA: number;
}): RunPlot | null {
  const { window, report, limitA } = o;
  const seen = extent(window.ampsMin, window.ampsMax, window.count);
  if (seen === null) return null;
  const fromS = window.fromTick / TICKS_PER_SECOND;
  const toS = Math.max(window.toTick / TICKS_PER_SECOND, fromS + 0.1);
  const top = Math.max(seen.high, o.topA);
  const showsLimit = limitA !== null && limitA > 0 && limitA <= top * 1.6;
  const time = scaleLinear([fromS, toS], [FRAME.left, FRAME.right]);
  const amps = scaleLinear(
    [Math.min(0, seen.low), showsLimit ? Math.max(top, limitA * 1.04) : top || 0.001],
    [FRAME.bottom, FRAME.top],
  ).nice(4);
  const seenV = extent(window.voltsMin, window.voltsMax, window.count);
  const volts = scaleLinear(
    [Math.min(0, seenV?.low ?? 0), Math.max(1, seenV?.high ?? 1, o.setV ?? 0) * 1.08],
    [FRAME.bottom, FRAME.top],
  );

  const milli = amps.domain()[1]! < 0.1;
  const seconds = timeAxis(fromS, toS);
  const { count, tick } = window;
  return {
    width: WIDTH,
    height: HEIGHT,
    frame: FRAME,
    amps: curvePath(tick, count, window.ampsMin, window.ampsMax, time, amps),
    volts:
      seenV === null ? '' : curvePath(tick, count, window.voltsMin, window.voltsMax, time, volts),
    ampsTicks: numberTicks(amps, milli ? 1000 : 1),
    voltsTicks: seenV === null ? [] : numberTicks(volts, 1),
    timeTicks: time
      .copy()
      .domain([fromS / seconds.size, toS / seconds.size])
      .ticks(8)
      .map((at, i, all) => ({
        at: round(time(at * seconds.size)),
        text: i === all.length - 1 ? `${plain(at)} ${seconds.unit}` : plain(at),
      })),
    ampsUnit: milli ? 'mA' : 'A',
    limit: showsLimit ? { at: round(amps(limitA)), text: 'limit' } : null,
    pins: pinMarks(report.marks, (s) => round(time(s)), FRAME),
    strip: layStrip(report.stages, (s) => round(time(Math.min(toS, Math.max(fromS, s))))),
    stripTop: STRIP_TOP,
    stripHeight: STRIP_HEIGHT,
  };
}

/**
 * A common height for the amps axes of several runs, so that they compare by eye; 0 (each its
 * own) when the largest would flatten the smallest.
 */
export function sharedTop(windows: readonly TraceWindow[]): number {
  const tops = windows
    .map((w) => extent(w.ampsMin, w.ampsMax, w.count)?.high ?? 0)
    .filter((top) => top > 0);
  const highest = Math.max(0, ...tops);
  return highest > SHARED_UP_TO * Math.min(...tops) ? 0 : highest;
}

function extent(
  low: Float64Array,
  high: Float64Array,
  count: Float64Array,
): { low: number; high: number } | null {
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < count.length; i += 1) {
    if (count[i] === 0 || Number.isNaN(low[i]!) || Number.isNaN(high[i]!)) continue;
    least = Math.min(least, low[i]!);
    most = Math.max(most, high[i]!);
  }
  return most === -Infinity ? null : { low: least, high: most };
}

function numberTicks(
  scale: { ticks: (count: number) => number[]; (value: number): number },
  factor: number,
): AxisTick[] {
  return scale.ticks(4).map((value) => ({ at: round(scale(value)), text: plain(value * factor) }));
}

function timeAxis(fromS: number, toS: number): { unit: string; size: number } {
  const span = toS - fromS;
  if (span <= 180) return { unit: 's', size: 1 };
  return span <= 3 * 3600 ? { unit: 'min', size: 60 } : { unit: 'h', size: 3600 };
}

function plain(value: number): string {
  return String(Number(value.toPrecision(6))).replace('-', '\u2212');
}

/** A tenth of a unit is finer than any printer: shorter paths, the same page on every machine. */
function round(value: number): number {
  return Math.round(value * 10) / 10;
}
