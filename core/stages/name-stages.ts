import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { type Board, isSmall, levelOf } from './board.ts';
import { HIGH_FROM, isBusy, RUNS_FROM, splitClimb } from './climb.ts';
import { findCreeps } from './creep.ts';
import { type CycleRun, findCycles } from './cycles.ts';
import type { Named } from './named.ts';
import { pieceSd } from './piece.ts';
import {
  ampsWords,
  countWords,
  levelWords,
  secondsWords,
  shareWords,
  voltsWords,
} from './quantity-words.ts';
import { joinSpans, type Span, spanS } from './span.ts';
import type { StageId } from './stage.ts';

/** Seconds of no or low draw after a climb from which it has fallen back rather than restarted. */
const RESTART_S = 2;

/** Names spans in the order of the rules that `tracker.ts` lists. `rose`: it had climbed before. */
export function nameStages(spans: readonly Span[], board: Board, rose: boolean): Named[] {
  const cycles = findCycles(spans, board);
  const out: Named[] = [];
  let climbed = rose;
  let ran = false;
  let i = 0;
  while (i < spans.length) {
    const cycle = cycles.find((c) => c.from === i);
    if (cycle !== undefined) {
      out.push(cycling(spans, cycle));
      climbed = true;
      ran = false;
      i = cycle.to;
      continue;
    }
    const stop = cycles.find((c) => c.from > i)?.from ?? spans.length;
    const span = spans[i]!;
    if (span.piece.feed === 'off') {
      out.push(whole('off', [span], 0.99, offReason(span)));
      climbed = false;
      ran = false;
      i++;
    } else if (span.piece.feed === 'limit') {
      out.push(limited(span, board));
      i++;
    } else if (isLow(span, board)) {
      let end = i + 1;
      while (end < stop && spans[end]!.piece.feed === 'on' && isLow(spans[end]!, board)) end++;
      const next = spans[end];
      const dip = climbed && ran && next !== undefined && next.piece.feed === 'on' && end < stop;
      const lasted = (spans[end - 1]!.end - span.start) / TICKS_PER_SECOND;
      if (dip && lasted <= RESTART_S) {
        out.push(restart(spans.slice(i, end)));
      } else if (climbed) {
        out.push(fellBack(spans.slice(i, end), board));
        ran = false;
      } else {
        for (const s of spans.slice(i, end)) out.push(lowStage(s, board));
      }
      i = end;
    } else {
      let end = i + 1;
      while (end < stop && spans[end]!.piece.feed === 'on' && !isLow(spans[end]!, board)) end++;
      const from = firstPlateau(spans, i, end, board, climbed) ? i + 1 : i;
      if (from > i) out.push(lowStage(spans[i]!, board));
      const wasRunning = ran && out[out.length - 1]?.stage !== 'stepping';
      for (const part of splitClimb(spans, from, end, board, wasRunning)) {
        out.push(climbStage(spans, part.stage, part.from, part.to, board));
        climbed = true;
        if (part.stage === 'running' || part.stage === 'flat-high') ran = true;
      }
      i = end;
    }
  }
  return mergeSame(out.flatMap((n) => splitCreeps(n, board)));
}

/** No draw, or low: what a board takes before anything wakes. */
function isLow(span: Span, board: Board): boolean {
  const level = levelOf(span, board.runV);
  if (isZero(span, board) || level <= board.lowA) return true;
  return (
    board.runA === null &&
    isSmall(board.topA, board.runV) &&
    board.topA <= 1.6 * level &&
    !isBusy(span, board)
  );
}

export function isZero(span: Span, board: Board): boolean {
  const p = span.piece;
  return Math.abs(p.amps) <= board.zeroA + (2.5 * p.sigma) / Math.sqrt(p.bins);
}

/** The flat draw straight after no draw, while logic waits, although it is not that low. */
function firstPlateau(
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
  if (level > 0.35 * ref || spanS(span) < 0.5) return false;
  return levelOf(spans[i + 1]!, board.runV) > 1.3 * level;
}

function whole(
  stage: StageId,
  spans: readonly Span[],
  confidence: number,
  reason: string,
  periodS: number | null = null,
): Named {
  return {
    stage,
    start: spans[0]!.start,
    end: spans[spans.length - 1]!.end,
    spans,
    confidence,
    reason,
    periodS,
  };
}

function offReason(span: Span): string {
  const p = span.piece;
  const draw = `${ampsWords(p.amps)} for ${secondsWords(spanS(span))}`;
  return p.voltsBins > 0
    ? `Output off: ${voltsWords(p.volts)} and ${draw}.`
    : `The supply says that its output is off: ${draw}.`;
}

function limited(span: Span, board: Board): Named {
  const p = span.piece;
  const told = p.ccBins > p.bins / 2;
  const limit = board.settings.limitA;
  const parts = [`${levelWords(p.amps, pieceSd(p))} for ${secondsWords(spanS(span))}`];
  if (told) parts.push('the supply says constant current');
  if (limit !== null) parts.push(`${shareWords(p.amps / limit)} of the ${ampsWords(limit)} limit`);
  if (p.voltsBins > 0) {
    const set = board.settings.setV;
    parts.push(
      `volts at ${voltsWords(p.volts)}${set === null ? '' : ` of ${voltsWords(set)} set`}`,
    );
  } else parts.push('no volts column to check against');
  const confidence = told ? 0.98 : p.voltsBins > 0 ? 0.93 : 0.65;
  return whole('limited', [span], confidence, `${parts.join(', ')}.`);
}

function cycling(spans: readonly Span[], c: CycleRun): Named {
  const own = spans.slice(c.from, c.to);
  const supply = c.limited
    ? ' Each time the supply reaches its limit: a limit or leads so weak can make a board restart by themselves.'
    : '';
  return whole(
    'cycling',
    own,
    c.count >= 3 ? 0.96 : 0.85,
    `The draw rose to ${ampsWords(c.peakA)} and fell back to ${ampsWords(c.troughA)} ${c.count} times, ` +
      `every ${c.periodS.toFixed(2)} s +- ${Math.max(0.01, c.spreadS).toFixed(2)}.${supply}`,
    c.periodS,
  );
}

function restart(spans: readonly Span[]): Named {
  const dip = joinSpans(spans, 0, spans.length);
  return whole(
    'stepping',
    spans,
    0.8,
    `A restart: the draw dipped to ${ampsWords(dip.piece.amps)} for ${secondsWords(spanS(dip))} and climbed again.`,
  );
}

function fellBack(spans: readonly Span[], board: Board): Named {
  const s = joinSpans(spans, 0, spans.length);
  return whole(
    'fell-back',
    spans,
    0.93,
    `Back at ${levelWords(s.piece.amps, pieceSd(s.piece))} for ${secondsWords(spanS(s))} ` +
      `after holding ${ampsWords(board.topA)}; it has not climbed again.`,
  );
}

function lowStage(span: Span, board: Board): Named {
  const p = span.piece;
  const draw = `${levelWords(p.amps, pieceSd(p))} for ${secondsWords(spanS(span))}`;
  const level = levelOf(span, board.runV);
  if (isZero(span, board)) {
    const floor = `${board.zeroLearned ? 'the learned' : 'the usual'} zero floor of ${ampsWords(board.zeroA)}`;
    return whole('no-draw', [span], board.zeroLearned ? 0.95 : 0.75, `${draw}, within ${floor}.`);
  }
  const share =
    board.runA === null
      ? 'steady and small; no running level is known'
      : `${shareWords(level / board.runA)} of the running level of ${ampsWords(board.runA)}`;
  return whole(
    'flat-low',
    [span],
    board.runA === null ? 0.75 : 0.95,
    `${draw}, ${share}: nothing waking.`,
  );
}

function climbStage(
  spans: readonly Span[],
  stage: StageId,
  from: number,
  to: number,
  board: Board,
): Named {
  const own = spans.slice(from, to);
  const s = joinSpans(own, 0, own.length);
  const before = spans[from - 1];
  const fromA = before === undefined ? null : before.piece.amps;
  const wakes = board.settings.wakesWithinS;
  const runs =
    board.runA === null
      ? ''
      : wakes === null
        ? `; this board runs at ${ampsWords(board.runA)}`
        : `; the known-good runs of this board pass ${ampsWords(RUNS_FROM * board.runA)} within ${secondsWords(wakes)}`;
  const draw = `${levelWords(s.piece.amps, pieceSd(s.piece))} for ${secondsWords(spanS(s))}`;
  const origin = fromA === null ? '' : ` after ${ampsWords(fromA)}`;
  const unknown =
    ' No running level is known: stalled, running and flat high cannot be told apart by level alone.';
  if (stage === 'stepping') {
    const last = own[own.length - 1]!.piece.amps;
    return whole(
      stage,
      own,
      0.9,
      `${countWords(own.length, 'step', 'steps')} from ${ampsWords(fromA ?? own[0]!.piece.amps)} to ${ampsWords(last)} in ${secondsWords(spanS(s))}${runs}.`,
    );
  }
  const level = levelOf(s, board.runV);
  if (board.runA === null) {
    const busy = isBusy(s, board);
    const kind = busy ? 'moves with work' : 'is flat';
    return whole(stage, own, busy ? 0.65 : 0.4, `${draw}${origin}; the draw ${kind}.${unknown}`);
  }
  const share = shareWords(level / board.runA);
  if (stage === 'flat-high') {
    return whole(
      stage,
      own,
      0.9,
      `${draw}${origin}: steady at ${share} of the running level of ${ampsWords(board.runA)}.`,
    );
  }
  if (stage === 'running') {
    const near = level > RUNS_FROM * board.runA && level < HIGH_FROM * board.runA;
    return whole(
      stage,
      own,
      near ? 0.96 : 0.75,
      `${draw}${origin}: ${share} of the running level of ${ampsWords(board.runA)}.`,
    );
  }
  return whole(stage, own, level < 0.75 * board.runA ? 0.93 : 0.7, `${draw}${origin}${runs}.`);
}

/** Cuts the slow slopes out of a steady stage. */
function splitCreeps(named: Named, board: Board): Named[] {
  const steady = ['flat-low', 'stalled', 'running', 'flat-high', 'no-draw'];
  if (!steady.includes(named.stage)) return [named];
  const joined = joinSpans(named.spans, 0, named.spans.length);
  const creeps = findCreeps(joined.piece.blocks, named.end);
  if (creeps.length === 0) return [named];
  const out: Named[] = [];
  let at = named.start;
  for (const c of creeps) {
    if (c.start - at > 2 * TICKS_PER_SECOND) out.push({ ...named, start: at, end: c.start });
    const start = c.start - at > 2 * TICKS_PER_SECOND ? c.start : at;
    const end = named.end - c.end > 2 * TICKS_PER_SECOND ? c.end : named.end;
    const s = (end - start) / TICKS_PER_SECOND;
    out.push({
      stage: 'creeping',
      start,
      end,
      spans: named.spans,
      confidence: 0.88,
      reason: `A slow steady ${c.toA > c.fromA ? 'rise' : 'fall'} from ${ampsWords(c.fromA)} to ${ampsWords(c.toA)} over ${secondsWords(s)}, without steps.`,
      periodS: null,
    });
    at = end;
  }
  void board;
  if (named.end > at) out.push({ ...named, start: at });
  return out;
}

function mergeSame(named: readonly Named[]): Named[] {
  const out: Named[] = [];
  for (const n of named) {
    const last = out[out.length - 1];
    if (last !== undefined && last.stage === n.stage && n.start === last.end) {
      const longer = last.end - last.start >= n.end - n.start ? last : n;
      out[out.length - 1] = {
        ...longer,
        start: last.start,
        end: n.end,
        spans: last.spans === n.spans ? n.spans : [...last.spans, ...n.spans],
      };
    } else out.push(n);
  }
  return out;
}
