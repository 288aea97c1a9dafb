import { type Span, spanS } from './span.ts';
import type { TrackerSettings } from './stage.ts';

/** What is known of the board, the feed and the instruments when stages are named. */
export interface Board extends Ammeter {
  readonly settings: TrackerSettings;
  /** Amps at and under which nothing is drawn, offset and noise of the instrument included. */
  readonly zeroA: number;
  readonly zeroOffsetA: number;
  readonly zeroLearned: boolean;
  /** Running level in amps at `runV`; null when not known. */
  readonly runA: number | null;
  /** Volts that levels are compared at (equal watts count as equal draw); null without volts. */
  readonly runV: number | null;
  /** Amps at and under which a draw is flat low. */
  readonly lowA: number;
  /** Highest level held in this run, in amps at `runV`. */
  readonly topA: number;
}

/** Real zero floors run up to 6 mA (common practice, no source). */
const FLOOR_A = 0.006;

/** What the readings show of the ammeter: its resolution and its own noise, in amps. */
export interface Ammeter {
  readonly countA: number;
  readonly quietA: number;
}

/** What is remembered of the stretches that were named for good and dropped. */
export interface Learned {
  feedV: number;
  zeroOffsetA: number | null;
  topA: number;
}

export const NOTHING_LEARNED: Learned = {
  feedV: Number.NaN,
  zeroOffsetA: null,
  topA: 0,
};

/** Level of a span in amps at the board's running volts: equal watts count as equal draw. */
export function levelOf(span: Span, runV: number | null): number {
  const { amps, volts } = span.piece;
  if (runV === null || Number.isNaN(volts) || volts < 0.5) return amps;
  return Math.abs(volts / runV - 1) > 0.1 ? (amps * volts) / runV : amps;
}

/** Learns floor, noise and levels from spans, on top of what earlier ones taught. */
export function boardFrom(
  spans: readonly Span[],
  settings: TrackerSettings,
  learned: Learned,
  ammeter: Ammeter,
): { board: Board; learned: Learned } {
  let feedV = learned.feedV;
  let offset = learned.zeroOffsetA;
  let lowest = Number.POSITIVE_INFINITY;
  for (const span of spans) {
    const p = span.piece;
    if (p.feed === 'off' && p.bins >= 2) offset = p.amps;
    if (p.feed === 'on' && p.voltsBins >= 2 && !(p.volts <= feedV)) feedV = p.volts;
    if (p.feed === 'on' && p.bins >= 3 && spanS(span) > 0.3) lowest = Math.min(lowest, p.amps);
  }
  const runV = settings.runningV ?? settings.setV ?? (Number.isNaN(feedV) ? null : feedV);
  let topA = learned.topA;
  for (const span of spans) {
    if (span.piece.feed !== 'on') continue;
    if (spanS(span) < 0.4 && span.piece.bins < 2) continue;
    topA = Math.max(topA, levelOf(span, runV));
  }
  const { countA, quietA } = ammeter;
  const given = settings.zeroFloorA;
  const known = given ?? offset ?? (lowest < FLOOR_A + 0.0005 ? lowest : null);
  const room = Math.max(0.0025, 0.55 * countA, Math.min(0.5 * quietA, 0.01));
  const zeroA = known === null ? FLOOR_A + room / 2 : Math.max(known, 0) + room;
  const runA = settings.runningA;
  return {
    learned: { feedV, zeroOffsetA: offset, topA },
    board: {
      settings,
      zeroA,
      zeroOffsetA: known ?? 0,
      zeroLearned: known !== null,
      runA,
      runV,
      quietA,
      countA,
      lowA: lowLevel(runA, topA, zeroA),
      topA,
    },
  };
}

/** Share of the running level under which a draw is low: nothing waking. */
const LOW_SHARE = 0.2;
/** Amps under which a run that never climbed is called flat low when its level is not known. */
const SMALL_A = 0.1;

function lowLevel(runA: number | null, topA: number, zeroA: number): number {
  if (runA !== null) return Math.max(LOW_SHARE * runA, Math.min(zeroA * 1.2, 0.5 * runA));
  return Math.max(0.25 * topA, zeroA);
}

/** Whether a level is so small that a run that holds only it has woken nothing. */
export function isSmall(levelA: number, runV: number | null): boolean {
  return levelA <= SMALL_A && (runV === null || levelA * runV <= 1.3);
}

/**
 * Whether a span lies within or under the zero floor, the noise of its mean allowed for: current
 * that flows back into the supply is no draw either.
 */
export function isZero(span: Span, board: Board): boolean {
  const { amps, bins } = span.piece;
  return amps <= board.zeroA + (2 * Math.min(board.quietA, 0.008)) / Math.sqrt(bins);
}
