import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { switchedOffAtEnd, unfedEnd } from './assumed-off.ts';
import { type Board, levelOf } from './board.ts';
import { RUNS_FROM, splitClimb, staysHigh } from './climb.ts';
import { findCycles } from './cycles.ts';
import { withFirstCycle } from './first-cycle.ts';
import {
  backToFirstPlateau,
  dipsOnly,
  isFirstPlateau,
  isLow,
  lowStretch,
  startsInBurst,
} from './low-draw.ts';
import { nameLow } from './name-low.ts';
import { type Facts, mergeSame, type Named } from './named.ts';
import type { NamingState } from './naming-state.ts';
import type { Span } from './span.ts';
import type { StageId } from './stage.ts';

/** Seconds of low draw after running that a board may climb out of again: a restart, not a fall. */
const RESTART_S = 2;

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
  const cycles = findCycles(spans, board, state.ran, state.loop).map((c, k, all) =>
    withFirstCycle(c, spans, board, inrushAt, all[k - 1]?.to ?? 0),
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
    const settled = out[out.length - 1]?.stage === 'stalled';
    if (span.piece.feed === 'off') {
      put('off', i, end);
      climbed = false;
      ran = false;
    } else if (span.piece.feed === 'limit') {
      put('limited', i, end, { ceiling: board.settings.limitA === null });
    } else if (unfedEnd(spans, i, stop, board, climbed, inrushAt) > i) {
      end = unfedEnd(spans, i, stop, board, climbed, inrushAt);
      put('off', i, end, { assumedOff: 'before a start' });
      climbed = false;
      ran = false;
    } else if (isLow(span, board)) {
      const stretch = lowStretch(spans, i, stop, board);
      end = stretch.end;
      const lasted = (spans[end - 1]!.end - span.start) / TICKS_PER_SECOND;
      const climbsAgain = end < stop && spans[end]!.piece.feed === 'on';
      const stood = ran || (board.runA === null && settled);
      if (climbed && stood && climbsAgain && lasted <= RESTART_S) {
        put('stepping', i, end, { restart: true });
      } else if (climbed && switchedOffAtEnd(spans, i, end, board)) {
        put('off', i, end, { assumedOff: 'at the end' });
        climbed = false;
        ran = false;
      } else if (climbed) {
        if (climbsAgain) end = backToFirstPlateau(spans, i, end, board);
        put('fell-back', i, end, { bursts: stretch.bursts });
        ran = false;
        if (end < stretch.end) end = nameClimb(end, stop);
      } else {
        if (climbsAgain) end = backToFirstPlateau(spans, i, end, board);
        for (const p of nameLow(spans, i, end, board)) {
          put(p.stage, p.at, p.at + 1, { bursts: stretch.bursts });
        }
        if (climbsAgain && end < stretch.end) {
          climbed = true;
          end = nameClimb(end, stop);
        }
      }
    } else if (i === 0 && state.begins && startsInBurst(spans, stop, board)) {
      const stretch = lowStretch(spans, 0, stop, board);
      end = stretch.end;
      for (const p of nameLow(spans, 0, end, board)) {
        put(p.stage, p.at, p.at + 1, { bursts: stretch.bursts + 1 });
      }
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
      put(part.stage, part.from, part.to, part.restart === true ? { restart: true } : {});
      climbed = true;
      if (part.stage === 'running' || part.stage === 'flat-high') ran = true;
    }
    return end;
  }
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
