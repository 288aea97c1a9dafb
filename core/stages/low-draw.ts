import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { blockNoise } from './bent-line.ts';
import { type Board, isSmall, isZero, levelOf } from './board.ts';
import { isBusy, LONG_PLATEAU_S } from './climb.ts';
import { pieceSd } from './piece.ts';
import { type Span, spanS } from './span.ts';

/** A draw above low for less than this, between low draws, is a burst and no climb. */
export const BURST_S = 0.5;
/** Seconds of low draw inside a busy one that are no fall. */
const DIP_S = 0.25;

/** No draw, or low: what a board takes before anything wakes. */
export function isLow(span: Span, board: Board): boolean {
  const level = levelOf(span, board.runV);
  if (isZero(span, board) || level <= board.lowA) return true;
  if (board.runA !== null || !isSmall(board.topA, board.runV)) return false;
  // A lamp that blinks and a leak that creeps move a draw of some milliamps too: work moves it by
  // more, from one moment to the next.
  const { amps, blocks } = span.piece;
  const restless = blockNoise(
    blocks.map((b) => b.amps),
    0,
  );
  const works = isBusy(span, board) && pieceSd(span.piece) > 0.1 * amps && restless > 0.04 * amps;
  return board.topA <= 1.6 * level && !works;
}

/** A stretch of low draw from `i`, short bursts out of it included. */
export function lowStretch(
  spans: readonly Span[],
  i: number,
  stop: number,
  board: Board,
): { end: number; bursts: number } {
  let end = i + 1;
  let bursts = 0;
  while (end < stop && spans[end]!.piece.feed === 'on') {
    if (isLow(spans[end]!, board)) {
      end++;
      continue;
    }
    let back = end;
    while (back < stop && spans[back]!.piece.feed === 'on' && !isLow(spans[back]!, board)) back++;
    const lasted = (spans[back - 1]!.end - spans[end]!.start) / TICKS_PER_SECOND;
    const returns = back < stop && spans[back]!.piece.feed === 'on';
    // After two bursts one that is cut off by the end is taken for another.
    const cutOff = back >= spans.length && bursts >= 2;
    if (!(returns || cutOff) || lasted > BURST_S) break;
    bursts++;
    end = Math.min(back + 1, spans.length);
  }
  return { end, bursts };
}

/**
 * Where a staircase begins whose first steps are still low: after the first low plateau that is not
 * no draw, when every later one stands clearly higher than it and is short.
 */
export function backToFirstPlateau(
  spans: readonly Span[],
  i: number,
  end: number,
  board: Board,
): number {
  let first = i;
  while (first < end && (isZero(spans[first]!, board) || isFleeting(spans[first]!))) first++;
  let from = end;
  for (let k = end - 1; k > first; k--) {
    const span = spans[k]!;
    if (isFleeting(span)) continue;
    let before = k - 1;
    while (before > first && isFleeting(spans[before]!)) before--;
    const rose = rises(spans[before]!, span, board);
    if (!rose || spanS(span) > LONG_PLATEAU_S || isZero(span, board)) break;
    from = k;
  }
  return from;
}

/**
 * Whether a low plateau stands clearly higher than the one before. Where the feed's volts have moved,
 * watts are compared, and a few milliamps of the ammeter's offset weigh four times as much at 20 V
 * as they did at 5 V: it has to be twice as high.
 */
function rises(before: Span, span: Span, board: Board): boolean {
  const [a, b] = [before.piece.volts, span.piece.volts];
  const moved = Math.abs(a - b) > 0.1 * Math.max(a, b);
  const share = moved ? 2 : 1.25;
  return levelOf(span, board.runV) > share * levelOf(before, board.runV);
}

/** Too short to be a plateau: the edge of a switch caught half-way. */
function isFleeting(span: Span): boolean {
  return spanS(span) < 0.12 || (spanS(span) < 0.2 && span.piece.bins < 3);
}

/** Whether one low reading in the midst of a draw is a dip that work makes, and no fall. */
export function dipsOnly(spans: readonly Span[], at: number, stop: number, board: Board): boolean {
  const span = spans[at]!;
  const next = spans[at + 1];
  if (next === undefined || at + 1 >= stop || next.piece.feed !== 'on') return false;
  return (
    span.piece.bins === 1 && spanS(span) <= DIP_S && !isZero(span, board) && !isLow(next, board)
  );
}

/** Whether the trace begins inside a short burst out of low draw: that is no climb. */
export function startsInBurst(spans: readonly Span[], stop: number, board: Board): boolean {
  let end = 0;
  while (end < stop && spans[end]!.piece.feed === 'on' && !isLow(spans[end]!, board)) end++;
  if (end >= stop || spans[end]!.piece.feed !== 'on') return false;
  const lasted = (spans[end]!.start - spans[0]!.start) / TICKS_PER_SECOND;
  return lasted <= BURST_S || (end === 1 && spans[0]!.piece.bins === 1);
}

/** The flat draw straight after no draw, while logic waits, although it is not that low. */
export function isFirstPlateau(
  spans: readonly Span[],
  i: number,
  end: number,
  board: Board,
  climbed: boolean,
): boolean {
  const before = spans[i - 1];
  if (climbed || i + 1 >= end) return false;
  if (before !== undefined && before.piece.feed === 'on' && !isZero(before, board)) return false;
  const span = spans[i]!;
  const level = levelOf(span, board.runV);
  const ref = board.runA ?? board.topA;
  if (level > 0.4 * ref || spanS(span) < 0.5) return false;
  return levelOf(spans[i + 1]!, board.runV) > 1.3 * level;
}
