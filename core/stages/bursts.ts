import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, isZero, levelOf } from './board.ts';
import { isBusy, RUNS_FROM } from './climb.ts';
import type { Span } from './span.ts';

/** One rise out of low draw and the fall back to it. */
export interface Burst {
  /** Index of the first high span and of the first low span after it; -1 and 0 when dropped. */
  readonly up: number;
  readonly down: number;
  readonly riseS: number;
  readonly fallS: number;
  readonly peak: number;
  readonly trough: number;
  /** Whether the whole of it was spent at, or ended at, the supply's limit. */
  readonly limited: boolean;
  /** Seconds at the board's running level. */
  readonly ranS: number;
  /** Levels on the way up. */
  readonly levels: number;
  /** Seconds in it, or in the trough before it, over which nothing was read. */
  readonly gapS: number;
  /** Seconds at zero after it, where neither volts nor the supply tell whether it was fed. */
  readonly unfedS: number;
}

/**
 * Rises out of low draw and falls back to it, in order; one that output off ends, or the end of the
 * trace, does not count. `startsLow`: before the first span the draw was low.
 */
export function burstsOf(spans: readonly Span[], board: Board, startsLow: boolean): Burst[] {
  const bursts: Burst[] = [];
  let i = 0;
  while (i < spans.length) {
    const before = spans[i - 1];
    const rested =
      before === undefined ? startsLow : before.piece.feed === 'off' || isLowFed(before, board);
    const rises = rested && !isLowFed(spans[i]!, board);
    if (!rises || spans[i]!.piece.feed === 'off') {
      i++;
      continue;
    }
    const up = i;
    let limited = false;
    let ranTicks = 0;
    while (i < spans.length && !isLowFed(spans[i]!, board) && spans[i]!.piece.feed !== 'off') {
      const span = spans[i]!;
      const level = levelOf(span, board.runV);
      if (span.piece.feed === 'limit') limited = true;
      const ranHere =
        board.runA === null
          ? level >= 0.6 * board.topA && isBusy(span, board)
          : level >= RUNS_FROM * board.runA;
      if (ranHere) ranTicks += span.end - span.start;
      i++;
    }
    if (i >= spans.length || spans[i]!.piece.feed === 'off') continue;
    bursts.push({
      up,
      down: i,
      riseS: spans[up]!.start / TICKS_PER_SECOND,
      fallS: spans[i]!.start / TICKS_PER_SECOND,
      peak: heldPeak(spans.slice(up, i), board),
      trough: spans[i]!.piece.amps,
      limited,
      ranS: ranTicks / TICKS_PER_SECOND,
      levels: i - up,
      unfedS: unfedS(spans, i, board),
      gapS: gapS(spans.slice(bursts[bursts.length - 1]?.down ?? Math.max(0, up - 1), i + 1)),
    });
  }
  return bursts;
}

function unfedS(spans: readonly Span[], from: number, board: Board): number {
  let ticks = 0;
  for (let i = from; i < spans.length && isLowFed(spans[i]!, board); i++) {
    const { voltsBins, toldBins } = spans[i]!.piece;
    if (voltsBins + toldBins === 0 && isZero(spans[i]!, board)) {
      ticks += spans[i]!.end - spans[i]!.start;
    }
  }
  return ticks / TICKS_PER_SECOND;
}

function gapS(spans: readonly Span[]): number {
  let ticks = 0;
  for (const [k, span] of spans.entries()) {
    ticks += span.piece.gapTicks;
    const before = spans[k - 1];
    if (before !== undefined && span.piece.afterGap) ticks += span.start - before.piece.lastTick;
  }
  return ticks / TICKS_PER_SECOND;
}

/** Highest level that a fifth of the burst's time or more stands at: overshoots do not count. */
function heldPeak(spans: readonly Span[], board: Board): number {
  const all = spans[spans.length - 1]!.end - spans[0]!.start;
  let held = 0;
  let highest = 0;
  for (const span of spans) {
    const level = levelOf(span, board.runV);
    highest = Math.max(highest, level);
    if (span.end - span.start >= 0.2 * all) held = Math.max(held, level);
  }
  return held > 0 ? held : highest;
}

/** Whether a fed span draws low. */
export function isLowFed(span: Span, board: Board): boolean {
  if (span.piece.feed !== 'on') return false;
  return levelOf(span, board.runV) <= board.lowA;
}
