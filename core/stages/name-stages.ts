import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, isSmall, isZero, levelOf } from './board.ts';
import { isBusy, LONG_PLATEAU_S, RUNS_FROM, splitClimb, staysHigh } from './climb.ts';
import { type CycleRun, findCycles } from './cycles.ts';
import { type Facts, type LoopFacts, mergeSame, type Named } from './named.ts';
import { type Span, spanS } from './span.ts';
import type { StageId } from './stage.ts';

/** Seconds of low draw after running that a board may climb out of again: a restart, not a fall. */
const RESTART_S = 2;
/** A draw above low for less than this, between low draws, is a burst and no climb. */
const BURST_S = 0.5;

/** Where naming starts from: what the stretches that were dropped have left behind. */
export interface NamingState {
  /** Whether the board had climbed since the output went on, and whether it had run. */
  readonly climbed: boolean;
  readonly ran: boolean;
  /** Level that it had stalled at, in amps at the board's running volts; null otherwise. */
  readonly stalledA: number | null;
  readonly loop: LoopFacts | null;
  readonly lastA: number | null;
  /** Whether the trace begins here, in the middle of whatever the board was doing. */
  readonly begins: boolean;
}

export const FRESH_RUN: NamingState = {
  climbed: false,
  ran: false,
  stalledA: null,
  loop: null,
  lastA: null,
  begins: true,
};

/**
 * Names spans by the rules that `tracker.ts` lists in their order; slow slopes come after.
 * `inrushAt` holds the ticks at which an inrush began and its peak in amps.
 */
export function nameStages(
  spans: readonly Span[],
  board: Board,
  state: NamingState,
  inrushAt: ReadonlyMap<number, number>,
): Named[] {
  const cycles = findCycles(spans, board, state.ran, state.loop).map((c) =>
    withFirstCycle(c, spans, board, inrushAt),
  );
  const out: Named[] = [];
  let { climbed, ran } = state;
  let i = 0;
  let next = 0;
  const put = (stage: StageId, from: number, to: number, facts: Facts = {}) => {
    const before = spans[from - 1];
    const afterA = before === undefined ? state.lastA : before.piece.amps;
    const own = spans.slice(from, to);
    const end = own[own.length - 1]!.end;
    out.push({ stage, start: own[0]!.start, end, spans: own, facts: { ...facts, afterA } });
  };
  while (i < spans.length) {
    while (next < cycles.length && (cycles[next]!.from < i || cycles[next]!.to <= i)) next++;
    const cycle = cycles[next]?.from === i ? cycles[next] : undefined;
    if (cycle !== undefined) {
      put('cycling', i, cycle.to, { loop: cycle.facts });
      climbed = true;
      ran = false;
      i = cycle.to;
      continue;
    }
    const stop = cycles[next]?.from ?? spans.length;
    const span = spans[i]!;
    let end = i + 1;
    if (span.piece.feed === 'off') {
      put('off', i, end);
      climbed = false;
      ran = false;
    } else if (span.piece.feed === 'limit') {
      put('limited', i, end, { ceiling: board.settings.limitA === null });
    } else if (unfedEnd(spans, i, stop, board, climbed, inrushAt) > i) {
      end = unfedEnd(spans, i, stop, board, climbed, inrushAt);
      put('off', i, end, { assumedOff: true });
      climbed = false;
      ran = false;
    } else if (isLow(span, board)) {
      const stretch = lowStretch(spans, i, stop, board);
      end = stretch.end;
      const lasted = (spans[end - 1]!.end - span.start) / TICKS_PER_SECOND;
      const climbsAgain = end < stop && spans[end]!.piece.feed === 'on';
      if (climbed && ran && climbsAgain && lasted <= RESTART_S) {
        put('stepping', i, end, { restart: true });
      } else if (climbed) {
        put('fell-back', i, end, { bursts: stretch.bursts });
        ran = false;
      } else {
        if (climbsAgain) end = backToFirstPlateau(spans, i, end, board);
        nameLow(spans, i, end, board, put, stretch.bursts);
        if (climbsAgain && end < stretch.end) {
          climbed = true;
          end = nameClimb(end, stop);
        }
      }
    } else if (i === 0 && state.begins && startsInBurst(spans, stop, board)) {
      const stretch = lowStretch(spans, 0, stop, board);
      end = stretch.end;
      nameLow(spans, 0, end, board, put, stretch.bursts + 1);
    } else {
      end = nameClimb(i, stop);
    }
    i = end;
  }
  return mergeSame(out);

  function nameClimb(first: number, stop: number): number {
    let end = first + 1;
    while (end < stop && spans[end]!.piece.feed === 'on') {
      const falls = isLow(spans[end]!, board) && !isLow(spans[end - 1]!, board);
      if (falls && !dipsOnly(spans, end, stop, board)) break;
      end++;
    }
    let from = first;
    if (isFirstPlateau(spans, from, end, board, climbed)) {
      put('flat-low', from, from + 1);
      from++;
    }
    const last = out[out.length - 1];
    // A trace that begins with the board up shows no climb: it goes on from wherever it was.
    const midway = state.begins && from === 0 && out.length === 0 && isUp(spans, from, end, board);
    const going = midway || (ran && last?.stage !== 'stepping');
    const stalledA = out.length === 0 && from === 0 ? state.stalledA : null;
    for (const part of splitClimb(spans, from, end, board, going, stalledA)) {
      put(part.stage, part.from, part.to);
      climbed = true;
      if (part.stage === 'running' || part.stage === 'flat-high') ran = true;
    }
    return end;
  }
}

/** Seconds of low draw inside a busy one that are no fall. */
const DIP_S = 0.25;

/** Whether one low reading in the midst of a draw is a dip that work makes, and no fall. */
function dipsOnly(spans: readonly Span[], at: number, stop: number, board: Board): boolean {
  const span = spans[at]!;
  const next = spans[at + 1];
  if (next === undefined || at + 1 >= stop || next.piece.feed !== 'on') return false;
  return (
    span.piece.bins === 1 && spanS(span) <= DIP_S && !isZero(span, board) && !isLow(next, board)
  );
}

/** Whether the trace begins inside a short burst out of low draw: that is no climb. */
function startsInBurst(spans: readonly Span[], stop: number, board: Board): boolean {
  let end = 0;
  while (end < stop && spans[end]!.piece.feed === 'on' && !isLow(spans[end]!, board)) end++;
  if (end >= stop || spans[end]!.piece.feed !== 'on') return false;
  const lasted = (spans[end]!.start - spans[0]!.start) / TICKS_PER_SECOND;
  return lasted <= BURST_S || (end === 1 && spans[0]!.piece.bins === 1);
}

/**
 * Whether a stretch stands at the running level or above all along its first seconds, and comes
 * back to that level.
 */
function isUp(spans: readonly Span[], from: number, end: number, board: Board): boolean {
  if (board.runA === null || staysHigh(spans, from, end, board)) return false;
  for (let i = from; i < end; i++) {
    if (levelOf(spans[i]!, board.runV) < RUNS_FROM * board.runA) return false;
    if (spans[i]!.end - spans[from]!.start > 5 * TICKS_PER_SECOND) return true;
  }
  return true;
}

/** No draw, or low: what a board takes before anything wakes. */
function isLow(span: Span, board: Board): boolean {
  const level = levelOf(span, board.runV);
  if (isZero(span, board) || level <= board.lowA) return true;
  if (board.runA !== null || !isSmall(board.topA, board.runV)) return false;
  return board.topA <= 1.6 * level && !isBusy(span, board);
}

/**
 * A loop with the low draw before its first rise, when that is one of its troughs: it lasts as long
 * as the others, or it follows a first burst straight at output on that was taken for an inrush.
 */
function withFirstCycle(
  c: CycleRun,
  spans: readonly Span[],
  board: Board,
  inrushAt: ReadonlyMap<number, number>,
): CycleRun {
  if (c.to <= c.from || spans[c.from - 1]?.piece.feed !== 'on') return c;
  let first = c.from;
  while (first > 0 && spans[first - 1]!.piece.feed === 'on' && isLow(spans[first - 1]!, board))
    first--;
  const from = backToFirstPlateau(spans, first, c.from, board);
  const at = from - 1;
  const low = spans[at];
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

/** Seconds at zero between two starts that a hand at the switch takes at least. */
const SWITCHED_S = 0.8;

/**
 * End of a stretch at zero that is taken as output off although neither volts nor the supply tell:
 * an inrush ends it, or the board had climbed and starts afresh after it. `i` when there is none.
 */
function unfedEnd(
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

/** A stretch of low draw from `i`, short bursts out of it included. */
function lowStretch(
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
function backToFirstPlateau(spans: readonly Span[], i: number, end: number, board: Board): number {
  let first = i;
  while (first < end && (isZero(spans[first]!, board) || isFleeting(spans[first]!))) first++;
  let from = end;
  for (let k = end - 1; k > first; k--) {
    const span = spans[k]!;
    if (isFleeting(span)) continue;
    let before = k - 1;
    while (before > first && isFleeting(spans[before]!)) before--;
    const rose = levelOf(span, board.runV) > 1.25 * levelOf(spans[before]!, board.runV);
    if (!rose || spanS(span) > LONG_PLATEAU_S || isZero(span, board)) break;
    from = k;
  }
  return from;
}

/** Too short to be a plateau: the edge of a switch caught half-way. */
function isFleeting(span: Span): boolean {
  return spanS(span) < 0.2 && span.piece.bins < 3;
}

type Put = (stage: StageId, from: number, to: number, facts?: Facts) => void;

/** Seconds under which a change between no draw and flat low is no stage of its own. */
const FLICKER_S = 0.5;

/** Names a stretch that nothing climbed out of: no draw, flat low, or a small climb that stalled. */
function nameLow(
  spans: readonly Span[],
  i: number,
  end: number,
  board: Board,
  put: Put,
  bursts: number,
): void {
  const zero = steadyZeros(spans, i, end, board);
  let first: number | null = null;
  for (let k = i; k < end; k++) {
    const span = spans[k]!;
    const level = levelOf(span, board.runV);
    if (zero[k - i]) {
      put('no-draw', k, k + 1, { bursts });
    } else if (
      first !== null &&
      board.runA !== null &&
      level > 2.5 * first &&
      level > 0.1 * board.runA &&
      spanS(span) > 3 &&
      k === end - 1
    ) {
      put('stalled', k, k + 1);
    } else {
      first ??= level;
      put('flat-low', k, k + 1, { bursts });
    }
  }
}

/** For each span whether it counts as no draw; bursts and flickers go with what is around them. */
function steadyZeros(spans: readonly Span[], i: number, end: number, board: Board): boolean[] {
  const known = spans.slice(i, end).map((span) => {
    if (!isLow(span, board)) return null;
    return isZero(span, board);
  });
  const settled = known.map((zero, k) => {
    if (zero !== null) return zero;
    const after = known.slice(k).find((z) => z !== null);
    const before = known.slice(0, k).findLast((z) => z !== null);
    return before ?? after ?? false;
  });
  for (let k = 0; k < settled.length; k++) {
    if (k > 0 && settled[k] === settled[k - 1]) continue;
    let to = k;
    while (to < settled.length && settled[to] === settled[k]) to++;
    const lasted = (spans[i + to - 1]!.end - spans[i + k]!.start) / TICKS_PER_SECOND;
    if (to < settled.length && lasted < FLICKER_S)
      settled.fill(k > 0 ? settled[k - 1]! : settled[to]!, k, to);
    k = to - 1;
  }
  return settled;
}

/** The flat draw straight after no draw, while logic waits, although it is not that low. */
function isFirstPlateau(
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
