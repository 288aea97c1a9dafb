import { beginEarlier, joinRise } from './feed-edges.ts';
import { joinPieces, pieceSd } from './piece.ts';
import { joinAlike, joinSlopes, type Span, spanS } from './span.ts';

/** Seconds at the limit that are a peak and no stage; longer where the output has just gone on. */
const BRIEF_LIMIT_S = 0.25;
const BRIEF_LIMIT_AT_START_S = 0.5;
const EDGE_S = 0.12;
const SPIKE_S = 0.06;

/**
 * Spans as they are named: noise, edges and slopes joined, brief moments at the limit eased.
 * `quietA` is the instrument's own noise in amps.
 */
export function cleanSpans(spans: readonly Span[], quietA: number): Span[] {
  const levels = joinRise(joinAlike(easeLimits(spans), quietA));
  return joinSlopes(joinAlike(joinEdges(levels), quietA));
}

/** A moment at the limit is an inrush or a peak, not a stage. */
function easeLimits(spans: readonly Span[]): Span[] {
  return spans.map((span, i) => {
    if (span.piece.feed !== 'limit') return span;
    const neighbour = spans[i - 1];
    const fresh = neighbour === undefined || neighbour.piece.feed === 'off';
    const most = fresh ? BRIEF_LIMIT_AT_START_S : BRIEF_LIMIT_S;
    const first = fresh && span.piece.bins === 1;
    const brief = (spanS(span) < most || first) && i + 1 < spans.length;
    return brief || isGuess(span) ? { ...span, piece: { ...span.piece, feed: 'on' } } : span;
  });
}

/** Without volts and without the supply's word only a flat draw of some readings is a limit. */
function isGuess(span: Span): boolean {
  const p = span.piece;
  if (p.voltsBins > 0 || p.ccBins > 0) return false;
  const short = p.bins < 3 && spanS(span) < 1;
  return short || pieceSd(p) > Math.max(0.02 * p.amps, 2 * p.sigma);
}

/** Joins the readings in the middle of an edge to what follows it: they are no level. */
function joinEdges(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (let i = 0; i < spans.length; i++) {
    const span = spans[i]!;
    const before = out[out.length - 1];
    let end = i;
    if (before?.piece.feed === 'off' && i + 1 < spans.length && onEdge(span, spans[i + 1]!, 1))
      end++;
    if (before !== undefined && before.piece.feed !== 'limit') {
      const way = Math.sign(span.piece.amps - before.piece.amps);
      while (end + 1 < spans.length && onEdge(spans[end]!, spans[end + 1]!, way)) end++;
    }
    let joined = spans[end]!;
    for (let k = end - 1; k >= i; k--) joined = beginEarlier(joined, spans[k]!);
    out.push(joined);
    i = end;
  }
  return out;
}

function onEdge(span: Span, next: Span, way: number): boolean {
  return (
    spanS(span) <= EDGE_S &&
    span.piece.bins <= 3 &&
    span.piece.feed === 'on' &&
    (next.piece.feed === 'on' || (next.piece.feed === 'limit' && way > 0)) &&
    Math.sign(next.piece.amps - span.piece.amps) === way
  );
}

/** A single reading that stands out of a level on both sides is a spike of that level. */
export function dropSpikes(spans: readonly Span[], zeroA: number, quietA: number): Span[] {
  const out: Span[] = [];
  for (let i = 0; i < spans.length; i++) {
    const span = spans[i]!;
    const before = out[out.length - 1];
    const next = spans[i + 1];
    if (before !== undefined && next !== undefined && isSpike(before, span, next, zeroA, quietA)) {
      const level = joinPieces(before.piece, next.piece);
      const high = span.piece.ampsMax > level.ampsMax;
      const piece = high
        ? { ...level, ampsMax: span.piece.ampsMax, peakTick: span.piece.peakTick }
        : level;
      out[out.length - 1] = { piece, start: before.start, end: next.end };
      i++;
    } else out.push(span);
  }
  return out;
}

function isSpike(before: Span, span: Span, next: Span, zeroA: number, quietA: number): boolean {
  const level = before.piece.amps;
  return (
    spanS(span) <= SPIKE_S &&
    before.piece.feed === 'on' &&
    span.piece.feed === 'on' &&
    next.piece.feed === 'on' &&
    // Down to half a level, or as far as the instrument's own noise may throw a single reading.
    ((level > zeroA && span.piece.amps > 0.5 * level) ||
      Math.abs(span.piece.amps - level) < 6 * quietA) &&
    Math.abs(level - next.piece.amps) < Math.max(0.1 * level, 3 * pieceSd(before.piece), 0.002)
  );
}
