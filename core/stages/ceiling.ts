import type { Board } from './board.ts';
import { type Piece, pieceSd } from './piece.ts';
import { type Span, spanS } from './span.ts';

/** Volts that a feed negotiates to: standing there is no collapse. */
const NEGOTIATED_V = [5, 9, 12, 15, 20];
const SHORT_V = 1.2;
const LEAST_A = 0.05;

/**
 * Finds current limits that nobody told: a hard flat ceiling of current while the volts collapse.
 * Either the volts stand near zero as over a short, or they stand under the feed with the current
 * higher and flatter than before and the watts not kept, which a change of feed would keep.
 */
export function markCeilings(spans: readonly Span[], board: Board): Span[] {
  let feedV = Number.NaN;
  let highestA = 0;
  let before: Span | null = null;
  return spans.map((span) => {
    const p = span.piece;
    if (p.feed === 'off') {
      before = null;
      feedV = Number.NaN;
      return span;
    }
    const at = p.feed === 'on' && isCeiling(span, before, feedV, highestA, board);
    highestA = Math.max(highestA, p.amps);
    if (at) return { ...span, piece: { ...p, feed: 'limit' as const } };
    if (p.feed === 'on') {
      before = span;
      if (p.voltsBins > 0 && spanS(span) > 0.2 && !(p.volts <= feedV)) feedV = p.volts;
    }
    return span;
  });
}

function isCeiling(
  span: Span,
  before: Span | null,
  feedV: number,
  highestA: number,
  board: Board,
): boolean {
  const p = span.piece;
  if (p.voltsBins === 0 || p.amps < LEAST_A || p.amps < 3 * board.zeroA) return false;
  if (spanS(span) < 0.25 && p.bins < 2) return false;
  const { setV, limitA } = board.settings;
  const flatness = Math.max(3 * board.quietA, 0.02 * p.amps, board.countA);
  if (pieceSd(p) > flatness) return false;
  if (p.volts < SHORT_V) return setV === null || setV > 2 * SHORT_V;
  if (limitA !== null && p.amps < 0.9 * limitA) return false;
  if (p.amps < 0.97 * highestA) return false;
  if (before === null || Number.isNaN(feedV)) {
    const near = NEGOTIATED_V.some((v) => Math.abs(p.volts - v) < 0.06 * v);
    return setV !== null && p.volts < 0.85 * setV && !near;
  }
  if (leadsExplain(p, before.piece, feedV)) return false;
  if (p.volts > 0.85 * feedV || p.amps < 1.1 * before.piece.amps) return false;
  const kept = (p.volts * p.amps) / (feedV * before.piece.amps);
  const moving = p.voltsMax - p.voltsMin > 0.05 * p.volts + 0.1;
  return kept < 0.75 || kept > 1.33 || moving;
}

/** Whether the volts are what the leads alone leave, by the drop that an earlier level showed. */
function leadsExplain(now: Piece, before: Piece, feedV: number): boolean {
  if (before.amps < 0.1 * now.amps || before.voltsBins === 0) return false;
  const leadOhms = (feedV - before.volts) / before.amps;
  return leadOhms > 0 && Math.abs(feedV - leadOhms * now.amps - now.volts) < 0.05 * feedV;
}
