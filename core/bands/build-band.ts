import type { Feed } from '../job/job.ts';
import { isSameFeed } from '../job/known-runs.ts';
import type { StageReport } from '../stages/stage.ts';
import type { TraceColumns } from '../trace/sample.ts';
import { ANCHOR_WORDS, ANCHORS, type Anchor, anchorS, offAfterS } from './band-anchor.ts';
import { bootVariants } from './boot-variants.ts';
import {
  BAND_STEP_S,
  type BandFound,
  type BandVariant,
  type KnownGoodBand,
  toleranceFor,
} from './known-good-band.ts';
import { curveEnd, runCurve } from './run-curve.ts';

/** A good run of the board model: its samples of the first two minutes and its stages. */
export interface GoodRun {
  readonly id: string;
  readonly feed: Feed;
  /** Volts that it was fed at; null when not known. */
  readonly feedV: number | null;
  readonly report: StageReport;
  readonly columns: TraceColumns;
}

/** Feed volts closer than this share are the same; others are compared in watts. */
const SAME_VOLTS = 0.1;
/** Level and time that are never told apart: 5 mA, 50 mW, half a second. */
const SMALL = { amps: 0.005, watts: 0.05 } as const;
const SMALL_S = 0.5;

/**
 * The known-good bands of a board model for one feed, one for each anchor that its good runs have.
 * At each moment a band spans what the good runs of a boot variant draw about then, widened by a
 * tolerance in level and in time that shrinks with their number (a quarter in level and 30 % in
 * time for one run; common practice, no source). Runs that were fed elsewhere or had other things
 * plugged in are left out and counted; where feed volts differ by more than a tenth, watts are
 * compared. Deterministic.
 */
export function buildBand(o: {
  readonly runs: readonly GoodRun[];
  readonly feed: Feed;
  readonly feedV: number | null;
}): BandFound {
  const alike = o.runs.filter((run) => isSameFeed(run.feed, o.feed));
  const others = o.runs.length - alike.length;
  const leftOut =
    others === 0
      ? null
      : `${countWords(others, 'good run')} of this board ${others === 1 ? 'was' : 'were'} fed elsewhere or had other things plugged in, and ${others === 1 ? 'is' : 'are'} left out.`;
  if (alike.length === 0) {
    const why =
      others === 0
        ? 'No good run of this board model is kept yet: there is no band.'
        : 'No good run of this board model was fed like this one: there is no band to compare with.';
    return { bands: [], why, leftOut };
  }
  const quantity = quantityFor(alike, o.feedV);
  const able = alike.filter((run) => quantity === 'amps' || hasVolts(run.columns));
  const bands = ANCHORS.flatMap((anchor) => bandAt(anchor, able, quantity));
  const why = bands.length > 0 ? null : 'The good runs of this board have no readings to compare.';
  return { bands, why, leftOut };
}

function bandAt(
  anchor: Anchor,
  runs: readonly GoodRun[],
  quantity: 'amps' | 'watts',
): KnownGoodBand[] {
  const timed = runs.flatMap((run) => {
    const startS = anchorS(run.report, anchor);
    if (startS === null) return [];
    // The way down after output off is no part of how a good board draws.
    const endS = offAfterS(run.report, startS) - BAND_STEP_S;
    return [{ run, curve: runCurve(run.columns, startS, quantity, endS) }];
  });
  const seen = timed.filter(({ curve }) => curveEnd(curve) > 0);
  if (seen.length === 0) return [];
  const ways = bootVariants(
    seen.map(({ curve }) => curve),
    quantity,
  );
  const variants = ways.map((way) => {
    const curves = way.map((i) => seen[i]!.curve);
    const runIds = way.map((i) => seen[i]!.run.id);
    return { ...bandOf(curves, quantity), runIds };
  });
  return [
    { anchor, quantity, variants, runs: seen.length, basis: basisOf(anchor, quantity, variants) },
  ];
}

function bandOf(
  curves: readonly Float64Array[],
  quantity: 'amps' | 'watts',
): Omit<BandVariant, 'runIds'> {
  const points = Math.max(...curves.map(curveEnd));
  const [low, middle, high] = [0, 1, 2].map(() => new Float64Array(points).fill(Number.NaN)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let at = 0; at < points; at += 1) {
    const there = curves.filter((curve) => !Number.isNaN(curve[at]!));
    if (there.length === 0) continue;
    const tolerance = toleranceFor(there.length);
    const atS = (at + 0.5) * BAND_STEP_S;
    const reach = Math.ceil((SMALL_S + tolerance.time * atS) / BAND_STEP_S);
    let [least, most, sum] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0];
    for (const curve of there) {
      sum += curve[at]!;
      const last = Math.min(points, at + reach + 1);
      for (let i = Math.max(0, at - reach); i < last; i += 1) {
        if (curve[i]! < least) least = curve[i]!;
        if (curve[i]! > most) most = curve[i]!;
      }
    }
    const small = SMALL[quantity];
    low[at] = least - Math.max(small, tolerance.level * Math.abs(least));
    high[at] = most + Math.max(small, tolerance.level * Math.abs(most));
    middle[at] = sum / there.length;
  }
  return { low, middle, high };
}

function quantityFor(runs: readonly GoodRun[], feedV: number | null): 'amps' | 'watts' {
  const volts = [feedV, ...runs.map((run) => run.feedV)].filter((one) => one !== null);
  const differ = volts.length > 0 && Math.max(...volts) > (1 + SAME_VOLTS) * Math.min(...volts);
  return differ ? 'watts' : 'amps';
}

const hasVolts = (columns: TraceColumns) => columns.volts.some((volts) => !Number.isNaN(volts));

function basisOf(
  anchor: Anchor,
  quantity: 'amps' | 'watts',
  variants: readonly BandVariant[],
): string {
  const runs = variants.reduce((sum, one) => sum + one.runIds.length, 0);
  const percent = Math.round(100 * toleranceFor(variants[0]!.runIds.length).level);
  const from = `from ${countWords(runs, 'good run')}, counted from ${ANCHOR_WORDS[anchor]}`;
  const width =
    runs === 1
      ? `One good run only: a line with a wide tolerance of ${percent} %`
      : `Known-good band with a tolerance of ${percent} %`;
  const ways = variants.length === 1 ? '' : `; this board boots in ${variants.length} ways`;
  const watts = quantity === 'amps' ? '' : '; fed at other volts, so watts are compared';
  return `${width}, ${from}${ways}${watts}.`;
}

function countWords(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
