import { TICKS_PER_SECOND } from '../trace/sample.ts';
import { medianOf } from '../trace/statistics.ts';
import { type Board, levelOf } from './board.ts';
import { type Burst, burstsOf, isLowFed } from './bursts.ts';
import type { LoopFacts } from './named.ts';
import type { Span } from './span.ts';

/** A stretch over which the draw rises and falls again and again. */
export interface CycleRun {
  /** Spans `from` (included) to `to` (not included). */
  readonly from: number;
  readonly to: number;
  readonly facts: LoopFacts;
}

const SHORTEST_S = 0.25;
const LONGEST_S = 36;
/** Seconds at zero that a hand at the switch takes at least, and that it leaves a board up. */
const SWITCHED_S = 0.8;
const HELD_S = 5;
/** A burst shorter than this share of the period, on a board that had been running, is standby. */
const STANDBY_SHARE = 0.18;

/**
 * Finds boot loops: at least two rises from low or no draw with falls back to it, alike in length
 * and height, 0.3 to 30 s apart. A load that switches on a running board does not count: it falls
 * to a running level, not to low draw. Nor do short bursts of a board that ran and went to sleep.
 * `prior` carries a loop whose first spans have been dropped; `ran` tells that the board ran before.
 */
export function findCycles(
  spans: readonly Span[],
  board: Board,
  ran: boolean,
  prior: LoopFacts | null,
): CycleRun[] {
  const found = burstsOf(spans, board, prior !== null);
  const bursts = prior === null ? found : [...prior.last, ...found];
  const before = ranBefore(spans, board, ran);
  const runs: CycleRun[] = [];
  let first = 0;
  while (first < bursts.length) {
    let last = first;
    while (last + 1 < bursts.length && alike(bursts, first, last + 1)) last++;
    while (last - first >= 3 && goesOn(bursts, first, last)) last++;
    const own = bursts.slice(first, last + 1);
    const carried = prior !== null && own[0]!.up < 0;
    if (loops(own, board, before[Math.max(0, own[0]!.up)] ?? ran, carried, bursts.length)) {
      runs.push(cycleRun(own, spans, board, carried ? prior : null));
      first = last + 1;
    } else {
      // A long row that is no loop has no loop in it: without this step many bursts cost their square.
      first = Math.max(first + 1, last - 5);
    }
  }
  return glue(runs, spans);
}

function loops(
  own: readonly Burst[],
  board: Board,
  ran: boolean,
  carried: boolean,
  all: number,
): boolean {
  if (carried) return true;
  if (own.length < 2) return false;
  // A board that reaches its running level and holds it has to do so three times to be a loop.
  if (own.length < 3 && own.every((b) => b.ranS > 3)) return false;
  const periods = periodsOf(own);
  const period = periods.reduce((a, b) => a + b, 0) / periods.length;
  const high = Math.max(...own.map((b) => b.fallS - b.riseS));
  // Two long starts with nothing drawn in between are a hand at the switch as well as a loop.
  if (own.length < 3 && own[0]!.unfedS >= SWITCHED_S && high >= HELD_S) return false;
  const share = high / period;
  const off = periods.map((p) => Math.abs(p - period)).sort((a, b) => a - b);
  // One odd try in ten does not make a loop uneven.
  const spread = off[Math.floor(0.9 * (off.length - 1))]!;
  const even = spread <= 0.15 * period + 0.03;
  if (high >= 1 || share >= STANDBY_SHARE) {
    // A climb of less than half a second: two need its staircase, more need to be even.
    if (high >= 0.5) return true;
    if (own.length >= 3) return even || share >= 0.35;
    return share >= 0.35 && own.some((b) => b.levels > 1);
  }
  // Short bursts: of a board asleep, unless it never ran and they come like clockwork and high.
  const peak = Math.max(...own.map((b) => b.peak));
  const tall = board.runA !== null && peak >= (share < 0.04 ? 0.8 : 0.35) * board.runA;
  const slight = share < 0.1 && !tall && !own.some((b) => b.limited);
  const enough = own.length >= 5 || (own.length >= 3 && own.length === all);
  return !ran && enough && even && !slight;
}

/** Joins loops that a single odd cycle has parted. */
function glue(runs: readonly CycleRun[], spans: readonly Span[]): CycleRun[] {
  const out: CycleRun[] = [];
  for (const run of runs) {
    const last = out[out.length - 1];
    if (last === undefined || last.to <= last.from || !oneLoop(last, run, spans)) {
      out.push(run);
      continue;
    }
    const { facts } = last;
    const count = facts.count + run.facts.count;
    const share = facts.count / count;
    out[out.length - 1] = {
      from: last.from,
      to: run.to,
      facts: {
        ...run.facts,
        count,
        periodS: share * facts.periodS + (1 - share) * run.facts.periodS,
        spreadS: Math.max(facts.spreadS, run.facts.spreadS),
        peakA: Math.max(facts.peakA, run.facts.peakA),
        troughA: Math.min(facts.troughA, run.facts.troughA),
        limited: facts.limited && run.facts.limited,
      },
    };
  }
  return out;
}

function oneLoop(a: CycleRun, b: CycleRun, spans: readonly Span[]): boolean {
  const gap = (spans[b.from]!.start - spans[a.to - 1]!.end) / TICKS_PER_SECOND;
  const longer = Math.max(a.facts.periodS, b.facts.periodS);
  const shorter = Math.min(a.facts.periodS, b.facts.periodS);
  for (let i = a.to; i < b.from; i++) if (spans[i]!.piece.feed === 'off') return false;
  const peaks = [a.facts.peakA, b.facts.peakA];
  return (
    gap < 1.6 * longer && longer < 1.8 * shorter && Math.max(...peaks) < 1.5 * Math.min(...peaks)
  );
}

/** For each span whether the board had run before it, or without a running level was long up. */
function ranBefore(spans: readonly Span[], board: Board, ran: boolean): boolean[] {
  const least = board.runA === null ? board.lowA : 0.8 * board.runA;
  let ticks = 0;
  return spans.map((span) => {
    const before = ran || ticks > 3 * TICKS_PER_SECOND;
    if (span.piece.feed === 'off') ticks = 0;
    else if (levelOf(span, board.runV) > least) ticks += span.end - span.start;
    return before;
  });
}

function alike(bursts: readonly Burst[], first: number, next: number): boolean {
  const a = bursts[next - 1]!;
  const b = bursts[next]!;
  const period = b.riseS - a.riseS;
  if (period < SHORTEST_S || period > LONGEST_S) return false;
  const byFall = b.fallS - a.fallS;
  if (a.gapS + b.gapS > 0 && next - first >= 2) {
    const usual = medianOf(periodsOf(bursts.slice(first, next)));
    // Where readings are missing an edge may be missing too, or a whole cycle: one edge has to fit.
    const fits = (s: number) =>
      Math.abs(s - Math.max(1, Math.round(s / usual)) * usual) < 0.25 * usual;
    const near = Math.max(period, byFall) < 2.3 * usual + a.gapS + b.gapS;
    return near && (fits(period) || fits(byFall)) && alikeInHeight(a, b);
  }
  if (Math.abs(byFall - period) > 0.3 * period + 0.05) return false;
  if (!alikeInHeight(a, b)) return false;
  if (next - first >= 2) {
    const mean = (a.riseS - bursts[first]!.riseS) / (next - 1 - first);
    if (Math.abs(period - mean) > 0.35 * mean + 0.05) return false;
  }
  return true;
}

/**
 * Whether a loop of four rises or more goes on after burst `last`, although the next rise comes early
 * or late or dies at once: where the supply's limit makes a board restart, tries are uneven.
 */
function goesOn(bursts: readonly Burst[], first: number, last: number): boolean {
  const next = bursts[last + 1];
  if (next === undefined) return false;
  const own = bursts.slice(first, last + 1);
  const usual = medianOf(periodsOf(own));
  const peak = medianOf(own.map((b) => b.peak));
  const since = next.riseS - bursts[last]!.riseS;
  return (
    since < 1.8 * usual && since > 0.3 * usual && next.peak < 1.5 * peak && next.peak > 0.4 * peak
  );
}

function alikeInHeight(a: Burst, b: Burst): boolean {
  return Math.max(a.peak, b.peak) <= 1.5 * Math.min(a.peak, b.peak);
}

/** Seconds from rise to rise, those beside missing readings left out where others remain. */
function periodsOf(bursts: readonly Burst[]): number[] {
  const all = bursts
    .slice(1)
    .map((b, i) => ({ s: b.riseS - bursts[i]!.riseS, gap: b.gapS > 0 || bursts[i]!.gapS > 0 }));
  const whole = all.filter(({ gap }) => !gap);
  return (whole.length > 0 ? whole : all).map(({ s }) => s);
}

/**
 * Index of the first span after a loop. Its last trough belongs to it for as long as the next rise
 * is not overdue, and so does a rise that the end of the trace cuts off.
 */
function loopEnd(
  spans: readonly Span[],
  last: Burst,
  periodS: number,
  highS: number,
  board: Board,
): number {
  let to = Math.max(0, last.down);
  while (to < spans.length && isLowFed(spans[to]!, board)) {
    if (spans[to]!.end / TICKS_PER_SECOND - last.riseS > 1.3 * periodS + 0.2) return to;
    to++;
  }
  const rise = spans[to];
  if (rise === undefined || rise.piece.feed === 'off') return to;
  let end = to;
  while (end < spans.length && !isLowFed(spans[end]!, board) && spans[end]!.piece.feed !== 'off')
    end++;
  const lasts = (spans[end - 1]!.end - rise.start) / TICKS_PER_SECOND;
  return end === spans.length && lasts <= 1.2 * highS + 0.1 ? end : to;
}

function cycleRun(
  own: readonly Burst[],
  spans: readonly Span[],
  board: Board,
  prior: LoopFacts | null,
): CycleRun {
  const periods = periodsOf(own);
  const period =
    periods.length > 0 ? periods.reduce((a, b) => a + b, 0) / periods.length : prior!.periodS;
  const spread = Math.max(0, ...periods.map((p) => Math.abs(p - period)));
  const troughs = own.slice(1).map((b, i) => b.riseS - own[i]!.fallS);
  const end = own[own.length - 1]!;
  const high = Math.max(...own.map((b) => b.fallS - b.riseS));
  const to = loopEnd(spans, end, period, high, board);
  const before = prior === null ? 0 : prior.count - prior.last.length;
  const share = prior === null ? 0 : before / (before + own.length);
  return {
    from: Math.max(0, own[0]!.up),
    to,
    facts: {
      count: before + own.length,
      periodS: share * (prior?.periodS ?? 0) + (1 - share) * period,
      spreadS: Math.max(spread, prior?.spreadS ?? 0),
      peakA: Math.max(prior?.peakA ?? 0, ...own.map((b) => b.peak)),
      troughS:
        troughs.length > 0
          ? troughs.reduce((a, b) => a + b, 0) / troughs.length
          : (prior?.troughS ?? 0),
      troughA: Math.min(prior?.troughA ?? Number.POSITIVE_INFINITY, ...own.map((b) => b.trough)),
      limited: own.every((b) => b.limited) && (prior?.limited ?? true),
      last: own.slice(-2),
    },
  };
}
