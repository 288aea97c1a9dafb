import { type Board, isZero } from './board.ts';
import { type Span, spanS } from './span.ts';

/** Seconds that a supply takes at most to bring its volts up. */
const RAMP_S = 0.5;
/** Share of the later volts under which they are still coming up, and of the earlier going down. */
const COMING_UP = 0.9;
const GOING_DOWN = 0.93;

/** A span that begins earlier, with the peak of what was taken into it. */
export function beginEarlier(span: Span, first: Span): Span {
  const { piece } = span;
  const higher = first.piece.ampsMax > piece.ampsMax;
  return {
    start: first.start,
    end: span.end,
    piece: {
      ...piece,
      tick: first.start,
      ...(higher ? { ampsMax: first.piece.ampsMax, peakTick: first.piece.peakTick } : {}),
    },
  };
}

/** Joins what is drawn while the volts still come up after output on to what follows. */
export function joinRise(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (let i = 0; i < spans.length; i++) {
    const first = spans[i]!;
    let end = i;
    if (out[out.length - 1]?.piece.feed === 'off') {
      while (end + 1 < spans.length && comesUp(first, spans[end]!, spans[end + 1]!)) end++;
    }
    let span = spans[end]!;
    for (let k = end - 1; k >= i; k--) span = beginEarlier(span, spans[k]!);
    out.push(span);
    i = end;
  }
  return out;
}

function comesUp(first: Span, span: Span, next: Span): boolean {
  const [a, b] = [span.piece, next.piece];
  if (a.feed !== 'on' || b.feed !== 'on' || a.voltsBins === 0 || b.voltsBins === 0) return false;
  return (span.end - first.start) / 10_000 <= RAMP_S && a.volts < COMING_UP * b.volts;
}

/**
 * Takes no draw with falling volts for output off: capacitors hold the volts up for a while after
 * the output has gone off. The volts have to end near nothing, or well down at the end of the trace.
 */
export function backdateOff(spans: readonly Span[], board: Board): Span[] {
  const out = [...spans];
  let fedV = Number.NaN;
  for (let i = 0; i < spans.length; i++) {
    const p = spans[i]!.piece;
    if (p.feed === 'on' && !isZero(spans[i]!, board)) fedV = p.lastVolts;
    if (p.feed !== 'on' || !isZero(spans[i]!, board) || !(p.lastVolts < GOING_DOWN * fedV))
      continue;
    let end = i;
    let volts = Number.POSITIVE_INFINITY;
    while (end < spans.length && falls(spans[end]!, board, volts)) {
      volts = spans[end]!.piece.lastVolts;
      end++;
    }
    const next = spans[end];
    const goesOff = next === undefined ? volts < 0.6 * fedV : next.piece.feed === 'off';
    if (goesOff) {
      for (let k = i; k < end; k++)
        out[k] = { ...out[k]!, piece: { ...out[k]!.piece, feed: 'off' } };
    }
    i = Math.max(i, end - 1);
  }
  return out;
}

function falls(span: Span, board: Board, before: number): boolean {
  const p = span.piece;
  if (p.feed !== 'on' || p.voltsBins === 0 || !isZero(span, board)) return false;
  return p.lastVolts <= before + 0.02 && p.lastVolts <= p.firstVolts + 0.02 && spanS(span) < 10;
}
