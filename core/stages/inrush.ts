import { TICKS_PER_SECOND } from '../trace/sample.ts';
import type { Board } from './board.ts';
import { driftOf, joinSpans, type Span, spanS } from './span.ts';

/** A short peak at the moment that a feed met an empty board. */
export interface Inrush {
  readonly tick: number;
  readonly peakA: number;
  readonly laterA: number;
}

/** Seconds that an inrush may last; slower readings get one reading. */
const INRUSH_S = 0.4;
/** Seconds that a capacitor may take to fill, its draw falling all the while. */
const DECAY_S = 5;

/**
 * Finds inrushes: a rise out of no draw whose first moments stand at 1.4 times what follows or
 * more. The peak is taken out of the spans (it joins what follows), so that it is no stage.
 */
export function takeInrushes(
  spans: readonly Span[],
  board: Board,
): { spans: Span[]; inrushes: Inrush[] } {
  const out: Span[] = [];
  const inrushes: Inrush[] = [];
  let i = 0;
  while (i < spans.length) {
    const span = spans[i]!;
    const before = out[out.length - 1];
    if (before === undefined || !rests(before, board) || rests(span, board)) {
      out.push(span);
      i++;
      continue;
    }
    let end = inrushEnd(spans, i, board);
    // Out of a fed board's no draw and back to it is a burst, not a capacitor that filled.
    const fed = before.piece.feed !== 'off';
    if (fed && end > i) {
      const later = spans[end]!;
      if (later.piece.amps < 2 * board.zeroA + 0.002 || spanS(later) < 1) end = i;
    }
    if (fed && end === i && spanS(span) < 1) {
      out.push(span);
      i++;
      continue;
    }
    const head = joinSpans(spans, i, Math.max(end, i + 1));
    const later = spans[end] ?? head;
    const peak = firstPeak(spans, i, Math.max(end, i + 1));
    const laterA = later.piece.amps;
    if (end > i || (isSharp(head, peak) && peak > 1.4 * laterA)) {
      if (peak > laterA + 5 * board.quietA + 0.003) {
        inrushes.push({ tick: span.start, peakA: peak, laterA });
      }
    }
    if (end > i && end < spans.length) {
      out.push({ piece: later.piece, start: span.start, end: later.end });
      i = end + 1;
    } else {
      out.push(span);
      i++;
    }
  }
  return { spans: out, inrushes };
}

function rests(span: Span, board: Board): boolean {
  return span.piece.feed === 'off' || span.piece.amps <= board.zeroA;
}

/** Index of the first span after the peak and its tail; `from` when there is no peak. */
function inrushEnd(spans: readonly Span[], from: number, board: Board): number {
  let end = from;
  let lasted = 0;
  while (end + 1 < spans.length) {
    const here = spans[end]!;
    const next = spans[end + 1]!;
    if (next.piece.feed === 'off') return from;
    lasted += spanS(here);
    const brief = lasted <= INRUSH_S || (here.piece.bins === 1 && lasted <= 1.2);
    if (!brief && !(isDecaying(here) && lasted <= DECAY_S)) return fallen(spans, from, end, board);
    const fell = here.piece.amps > 1.15 * next.piece.amps;
    const climbing = here.piece.amps < next.piece.amps && end === from && lasted < 0.06;
    if (!fell && !climbing) return fallen(spans, from, end, board);
    end++;
  }
  return fallen(spans, from, end, board);
}

/** `end` when the draw there stands well under the peak, else `from`: no peak worth the name. */
function fallen(spans: readonly Span[], from: number, end: number, board: Board): number {
  if (end === from) return from;
  const peak = firstPeak(spans, from, end);
  const later = Math.max(spans[end]!.piece.amps, board.zeroA);
  return peak > 1.4 * later ? end : from;
}

/** A capacitor filling: the draw falls all along the span, it does not stand at a level. */
function isDecaying(span: Span): boolean {
  return -driftOf(span.piece) > 0.12 * span.piece.amps || spanS(span) < 0.25;
}

function firstPeak(spans: readonly Span[], from: number, to: number): number {
  let peak = 0;
  for (let i = from; i < to; i++) peak = Math.max(peak, spans[i]!.piece.ampsMax);
  return peak;
}

/** Whether the peak of a joined span is one of its first moments and not its ordinary noise. */
function isSharp(span: Span, peak: number): boolean {
  const early = span.piece.peakTick - span.start <= 0.15 * TICKS_PER_SECOND;
  return early && peak > span.piece.amps + 6 * span.piece.sigma;
}
