import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, isZero } from './board.ts';
import { BURST_S, isLow } from './low-draw.ts';
import type { Span } from './span.ts';

/** Seconds at zero between two starts that a hand at the switch takes at least. */
const SWITCHED_S = 0.8;

/**
 * End of a stretch at zero that is taken as output off although neither volts nor the supply tell:
 * an inrush ends it, or the board had climbed and starts afresh after it. `i` when there is none.
 */
export function unfedEnd(
  spans: readonly Span[],
  i: number,
  stop: number,
  board: Board,
  climbed: boolean,
  inrushAt: ReadonlyMap<number, number>,
): number {
  const zero = climbed ? runDown(spans, i, stop, board) : i;
  if (zero >= stop) return i;
  const end = zeroEnd(spans, zero, stop, board, climbed, inrushAt);
  return end > zero ? end : i;
}

/** Seconds that capacitors go on feeding a board at most after the output has gone off. */
const RUN_DOWN_S = 1.5;

/** Index of the first span at zero after a low draw that runs down to it, within 1.5 s of span `i`. */
function runDown(spans: readonly Span[], i: number, stop: number, board: Board): number {
  let at = i;
  let level = Number.POSITIVE_INFINITY;
  while (at < stop && spans[at]!.piece.feed === 'on' && !isZero(spans[at]!, board)) {
    const { amps } = spans[at]!.piece;
    const lasted = (spans[at]!.end - spans[i]!.start) / TICKS_PER_SECOND;
    if (lasted > RUN_DOWN_S || amps > level || !isLow(spans[at]!, board)) return i;
    level = amps;
    at++;
  }
  return at;
}

function zeroEnd(
  spans: readonly Span[],
  i: number,
  stop: number,
  board: Board,
  climbed: boolean,
  inrushAt: ReadonlyMap<number, number>,
): number {
  let end = i;
  while (end < stop && spans[end]!.piece.feed === 'on') {
    const { voltsBins, toldBins } = spans[end]!.piece;
    if (voltsBins > 0 || toldBins > 0) return i;
    if (isZero(spans[end]!, board)) {
      end++;
      continue;
    }
    // A burst or flicker that falls back to nothing is no start.
    let back = end;
    while (back < stop && spans[back]!.piece.feed === 'on' && !isZero(spans[back]!, board)) back++;
    const lasted = (spans[back - 1]!.end - spans[end]!.start) / TICKS_PER_SECOND;
    if (end === i || back >= stop || lasted > BURST_S || inrushAt.has(spans[end]!.start)) break;
    end = back;
  }
  if (end === i || end >= stop) return i;
  if (inrushAt.has(spans[end]!.start)) return end;
  const lasted = (spans[end]!.start - spans[i]!.start) / TICKS_PER_SECOND;
  return climbed && lasted >= SWITCHED_S ? end : i;
}

/** Seconds that a log goes on at most after the output was switched off. */
const TAIL_S = 5;

/**
 * Whether a draw that had climbed ends the trace at nothing, with neither volts nor the supply's word:
 * switched off and the log stopped soon after. A board that falls back still feeds its always-on
 * rail, or is watched for longer (common practice, no source).
 */
export function switchedOffAtEnd(
  spans: readonly Span[],
  i: number,
  end: number,
  board: Board,
): boolean {
  if (end < spans.length) return false;
  const zero = runDown(spans, i, end, board);
  for (let k = i; k < end; k++) {
    const { voltsBins, toldBins } = spans[k]!.piece;
    if (voltsBins > 0 || toldBins > 0) return false;
    if (k >= zero && !isZero(spans[k]!, board)) return false;
  }
  return (spans[end - 1]!.end - spans[i]!.start) / TICKS_PER_SECOND <= TAIL_S;
}
