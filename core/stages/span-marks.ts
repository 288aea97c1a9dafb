import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, isZero } from './board.ts';
import type { Inrush } from './inrush.ts';
import { ampsWords, voltsWords } from './quantity-words.ts';
import { type Span, spanS } from './span.ts';
import type { Mark } from './stage.ts';

/** Volts and amps of the last stretch that was fed. */
export interface Fed {
  readonly volts: number;
  readonly amps: number;
}

/**
 * Marks that show only in the shape of the trace: feed changes and back-feeding, the latter from the
 * tick on from which the feed settings hold.
 */
export function spanMarks(
  spans: readonly Span[],
  board: Board,
  lastFed: Fed | null,
  feedSince: number,
): { marks: Mark[]; lastFed: Fed | null } {
  const marks: Mark[] = [];
  let last = lastFed;
  let backFed = false;
  for (const span of spans) {
    const p = span.piece;
    const back = span.start >= feedSince && isBackFed(span, board);
    if (back && !backFed)
      marks.push({ mark: 'back-fed', atS: at(span), text: backWords(span, board) });
    backFed = back;
    if (p.feed === 'off') last = null;
    if (p.feed !== 'on' || back) continue;
    if (p.voltsBins === 0 || p.volts < 1 || (spanS(span) < 0.25 && p.bins < 3)) continue;
    if (last !== null && movedVolts(last.volts, p.volts)) {
      marks.push({ mark: 'feed-change', atS: at(span), text: feedWords(last, span) });
    }
    last = { volts: p.volts, amps: p.amps };
  }
  return { marks, lastFed: last };
}

function at(span: Span): number {
  return span.start / TICKS_PER_SECOND;
}

function movedVolts(from: number, to: number): boolean {
  return Math.abs(to - from) > Math.max(0.1 * Math.max(to, from), 0.4);
}

function feedWords(before: Fed, span: Span): string {
  const { volts, amps } = span.piece;
  const was = (before.volts * before.amps).toFixed(2);
  const is = (volts * amps).toFixed(2);
  return `Feed from ${voltsWords(before.volts)} to ${voltsWords(volts)}: ${was} W before, ${is} W after.`;
}

/** No current while the volts stand above what is set, or stand at all with the output off. */
function isBackFed(span: Span, board: Board): boolean {
  const p = span.piece;
  if (p.voltsBins === 0 || (spanS(span) < 0.5 && p.bins < 3)) return false;
  if (p.amps > board.zeroA) return false;
  const { setV } = board.settings;
  if (p.feed === 'on') return setV !== null && isZero(span, board) && p.volts > 1.05 * setV + 0.2;
  if (p.feed !== 'off' || p.volts < 0.7 || spanS(span) < 1) return false;
  return Math.abs(p.lastVolts - p.firstVolts) < 0.05 * p.volts;
}

function backWords(span: Span, board: Board): string {
  const { setV } = board.settings;
  const { volts, amps } = span.piece;
  const set =
    span.piece.feed === 'off' || setV === null ? 'the output off' : `${voltsWords(setV)} set`;
  return `${voltsWords(volts)} on the board and ${ampsWords(amps)} with ${set}: something else feeds it.`;
}

/** Inrushes as marks. */
export function inrushMarks(inrushes: readonly Inrush[]): Mark[] {
  return inrushes.map((rush) => ({
    mark: 'inrush',
    atS: rush.tick / TICKS_PER_SECOND,
    text: `Inrush to ${ampsWords(rush.peakA)}, then ${ampsWords(rush.laterA)}.`,
  }));
}
