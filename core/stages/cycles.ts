import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, levelOf } from './board.ts';
import type { Span } from './span.ts';

/** A stretch over which the draw rises and falls again and again. */
export interface CycleRun {
  /** Spans `from` (included) to `to` (not included). */
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly periodS: number;
  readonly spreadS: number;
  readonly peakA: number;
  readonly troughA: number;
  readonly limited: boolean;
}

interface Burst {
  /** Index of the first high span and of the first low span after it. */
  readonly up: number;
  readonly down: number;
  readonly riseS: number;
  readonly fallS: number;
  readonly peak: number;
  readonly trough: number;
  readonly limited: boolean;
}

const SHORTEST_S = 0.25;
const LONGEST_S = 36;

/**
 * Finds boot loops: at least two rises from low or no draw with falls back to it, alike in length
 * and height, 0.3 to 30 s apart. A load that switches on a running board does not count: it falls
 * to a running level, not to low draw.
 */
export function findCycles(spans: readonly Span[], board: Board): CycleRun[] {
  const bursts = burstsOf(spans, board);
  const runs: CycleRun[] = [];
  let first = 0;
  while (first < bursts.length) {
    let last = first;
    while (last + 1 < bursts.length && alike(bursts, first, last + 1)) last++;
    if (last > first) {
      const run = cycleRun(bursts, first, last, spans);
      if (run !== null) runs.push(run);
      first = last + 1;
    } else first++;
  }
  return runs;
}

function burstsOf(spans: readonly Span[], board: Board): Burst[] {
  const bursts: Burst[] = [];
  let i = 0;
  while (i < spans.length) {
    const before = spans[i - 1];
    const rises = before !== undefined && low(before, board) && !low(spans[i]!, board);
    if (!rises || spans[i]!.piece.feed === 'off') {
      i++;
      continue;
    }
    const up = i;
    let peak = 0;
    let limited = false;
    while (i < spans.length && !low(spans[i]!, board) && spans[i]!.piece.feed !== 'off') {
      peak = Math.max(peak, levelOf(spans[i]!, board.runV));
      if (spans[i]!.piece.feed === 'limit') limited = true;
      i++;
    }
    if (i >= spans.length || spans[i]!.piece.feed === 'off') continue;
    bursts.push({
      up,
      down: i,
      riseS: spans[up]!.start / TICKS_PER_SECOND,
      fallS: spans[i]!.start / TICKS_PER_SECOND,
      peak,
      trough: spans[i]!.piece.amps,
      limited,
    });
  }
  return bursts;
}

function low(span: Span, board: Board): boolean {
  if (span.piece.feed === 'limit') return false;
  if (span.piece.feed === 'off') return false;
  return levelOf(span, board.runV) <= board.lowA;
}

function alike(bursts: readonly Burst[], first: number, next: number): boolean {
  const a = bursts[next - 1]!;
  const b = bursts[next]!;
  const period = b.riseS - a.riseS;
  if (period < SHORTEST_S || period > LONGEST_S) return false;
  const byFall = b.fallS - a.fallS;
  if (Math.abs(byFall - period) > 0.3 * period + 0.05) return false;
  if (Math.max(a.peak, b.peak) > 1.5 * Math.min(a.peak, b.peak)) return false;
  if (next - first >= 2) {
    const mean = (a.riseS - bursts[first]!.riseS) / (next - 1 - first);
    if (Math.abs(period - mean) > 0.35 * mean + 0.05) return false;
  }
  return true;
}

function cycleRun(
  bursts: readonly Burst[],
  first: number,
  last: number,
  spans: readonly Span[],
): CycleRun | null {
  const own = bursts.slice(first, last + 1);
  const periods = own.slice(1).map((b, i) => b.riseS - own[i]!.riseS);
  const period = periods.reduce((a, b) => a + b, 0) / periods.length;
  const spread = Math.max(...periods.map((p) => Math.abs(p - period)));
  // The last trough belongs to the loop for as long as the next rise is not overdue.
  let to = own[own.length - 1]!.down;
  const fallS = own[own.length - 1]!.fallS;
  while (to < spans.length && !(spans[to]!.piece.feed === 'off')) {
    const span = spans[to]!;
    const until = span.end / TICKS_PER_SECOND;
    if (until - fallS > 1.3 * period + 0.2) break;
    to++;
  }
  return {
    from: own[0]!.up,
    to,
    count: own.length,
    periodS: period,
    spreadS: spread,
    peakA: Math.max(...own.map((b) => b.peak)),
    troughA: Math.min(...own.map((b) => b.trough)),
    limited: own.every((b) => b.limited),
  };
}
