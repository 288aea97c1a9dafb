import { TICKS_PER_SECOND } from '../trace/sample.ts';
import type { Board } from './board.ts';
import { joinSpans, type Span, spanS } from './span.ts';

/** A short peak at the moment that a feed met an empty board. */
export interface Inrush {
  readonly tick: number;
  readonly peakA: number;
  readonly laterA: number;
}

/** Seconds that an inrush may last; slower readings get one reading. */
const INRUSH_S = 0.4;

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
    const end = inrushEnd(spans, i, board);
    const head = joinSpans(spans, i, Math.max(end, i + 1));
    const later = spans[end] ?? head;
    const peak = firstPeak(spans, i, Math.max(end, i + 1));
    const laterA = later.piece.amps;
    if (end > i || (isSharp(head, peak) && peak > 1.4 * laterA)) {
      if (peak > laterA + 5 * board.noiseA + 0.003) {
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
  return span.piece.feed === 'off' || Math.abs(span.piece.amps) <= board.zeroA;
}

/** Index of the first span after the peak and its tail; `from` when there is no peak. */
function inrushEnd(spans: readonly Span[], from: number, board: Board): number {
  let end = from;
  let lasted = 0;
  while (end + 1 < spans.length) {
    const here = spans[end]!;
    const next = spans[end + 1]!;
    lasted += spanS(here);
    const slow = here.piece.bins === 1 && lasted <= 1.2;
    if (lasted > INRUSH_S && !slow) return from;
    if (next.piece.feed === 'off') return from;
    const fell = here.piece.amps > 1.4 * Math.max(next.piece.amps, board.zeroA);
    const climbing = here.piece.amps < next.piece.amps && end === from && lasted < 0.06;
    if (!fell && !climbing) return end === from ? from : end;
    end++;
    if (spanS(next) > Math.max(2 * lasted, 0.25)) return fell ? end : from;
  }
  return from;
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
