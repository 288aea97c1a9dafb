import { type Board, isZero } from './board.ts';
import type { CycleRun } from './cycles.ts';
import { backToFirstPlateau, isLow } from './low-draw.ts';
import { type Span, spanS } from './span.ts';

/**
 * A loop with the low draw before its first rise, when that is one of its troughs: it lasts as long
 * as the others, or it follows a first burst straight at output on that was taken for an inrush.
 * Spans before `notBefore` belong to an earlier loop.
 */
export function withFirstCycle(
  c: CycleRun,
  spans: readonly Span[],
  board: Board,
  inrushAt: ReadonlyMap<number, number>,
  notBefore: number,
): CycleRun {
  if (c.to <= c.from || spans[c.from - 1]?.piece.feed !== 'on') return c;
  let first = c.from;
  while (
    first > notBefore &&
    spans[first - 1]!.piece.feed === 'on' &&
    isLow(spans[first - 1]!, board)
  )
    first--;
  const from = backToFirstPlateau(spans, first, c.from, board);
  const at = from - 1;
  const low = at < notBefore ? undefined : spans[at];
  if (low === undefined || low.piece.feed !== 'on') return { ...c, from };
  const peak = inrushAt.get(low.start);
  const lasted = spanS(low);
  const { periodS, peakA, troughS } = c.facts;
  const wholeCycle =
    peak !== undefined && peak > 0.6 * peakA && Math.abs(lasted - periodS) < 0.25 * periodS;
  const fresh = at === 0 || spans[at - 1]!.piece.feed === 'off' || isZero(spans[at - 1]!, board);
  const trough = fresh && Math.abs(lasted - troughS) < 0.12 * troughS;
  return { ...c, from: wholeCycle || (trough && c.facts.count >= 3) ? at : from };
}
