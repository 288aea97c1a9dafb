import { TICKS_PER_SECOND } from '../trace/sample.ts';
import {
  type Ammeter,
  type Board,
  boardFrom,
  type Learned,
  levelOf,
  NOTHING_LEARNED,
} from './board.ts';
import { markCeilings } from './ceiling.ts';
import { cleanSpans, dropSpikes } from './clean-spans.ts';
import { splitCreeps } from './creep-stages.ts';
import { findCycles } from './cycles.ts';
import { backdateOff } from './feed-edges.ts';
import { takeInrushes } from './inrush.ts';
import { nameStages } from './name-stages.ts';
import { mergeSame, type Named } from './named.ts';
import { FRESH_RUN, type NamingState, stateAfter } from './naming-state.ts';
import type { Piece } from './piece.ts';
import { type Furthest, further, NOWHERE, reachOf } from './reach.ts';
import { joinSpans, type Span, spansOf } from './span.ts';
import { meanUncertaintyA, rippleA } from './span-figures.ts';
import { type Fed, inrushMarks, spanMarks } from './span-marks.ts';
import type { Mark, Reach, Stage, Step, TrackerSettings } from './stage.ts';
import { verdictOf } from './stage-words.ts';
import { type StepBase, staircaseSteps } from './staircase-steps.ts';

/** Seconds after its end from which a stage is never renamed: a slow loop needs two cycles. */
const REVISE_S = 90;
/** Older spans of the newest stage from which they are folded into one. */
const FOLD_AT = 48;
/** Entries of each list that a run may keep; further ones are dropped and counted. */
export const MOST_KEPT = 20_000;

/** Everything that the shape of a trace says, before the plain sums. */
export interface Reading {
  readonly stages: Stage[];
  readonly marks: Mark[];
  readonly steps: Step[];
  readonly reach: Reach;
}

interface Analysis {
  readonly spans: Span[];
  readonly board: Board;
  readonly learned: Learned;
  readonly named: Named[];
  readonly inrush: Mark[];
}

/** Names pieces, keeps for good what can no longer change, and forgets its pieces. */
export class StageHistory {
  /** Tick from which the feed settings hold: earlier volts are not judged by them. */
  feedSince = 0;
  private readonly stages: Stage[] = [];
  private readonly marks: Mark[] = [];
  private readonly steps: Step[] = [];
  private state: NamingState = FRESH_RUN;
  private learned: Learned = NOTHING_LEARNED;
  private open: Named | null = null;
  private fed: Fed | null = null;
  private stepBase: StepBase | null = null;
  private furthest: Furthest = NOWHERE;

  /** Reads the pieces up to `endTick` on top of what is kept. Changes nothing. */
  read(
    pieces: readonly Piece[],
    endTick: number,
    settings: TrackerSettings,
    ammeter: Ammeter,
    closed: boolean,
  ): Reading {
    const a = this.analyse(pieces, endTick, settings, ammeter);
    const named = splitCreeps(this.withOpen(a.named), a.board);
    const steps = staircaseSteps(a.named, this.stepBase, a.board).steps;
    const marks = spanMarks(a.spans, a.board, this.fed, this.feedSince).marks;
    return {
      stages: [...this.stages, ...named.map((n) => stageOf(n, a.board, closed))],
      marks: [...this.marks, ...a.inrush, ...marks],
      steps: [...this.steps, ...steps],
      reach: reachOf(further(this.furthest, named, a.board), a.board),
    };
  }

  /**
   * Keeps the stages that ended 90 s ago or more and folds the older part of the newest one.
   * Returns the tick before which pieces are no longer needed.
   */
  settle(
    pieces: readonly Piece[],
    endTick: number,
    settings: TrackerSettings,
    ammeter: Ammeter,
  ): number {
    const horizon = endTick - REVISE_S * TICKS_PER_SECOND;
    if (pieces.length < 2 || pieces[1]!.tick > horizon) return 0;
    const a = this.analyse(pieces, endTick, settings, ammeter);
    const whole = this.withOpen(a.named);
    let done = 0;
    while (done < whole.length - 1 && whole[done]!.end <= horizon) done++;
    const older = whole.slice(0, done);
    let cutTick = done > 0 ? whole[done - 1]!.end : 0;
    this.keepMarks(a, cutTick);
    if (done > 0) {
      this.keep(splitCreeps(older, a.board), a.board);
      const fresh = this.open === null ? older : older.slice(1);
      const carried = this.open === null ? [] : [this.unopened(older[0]!)];
      this.keepSteps([...carried, ...fresh], a.board);
      this.state = older.reduce((s, n) => stateAfter(s, n, a.board), this.state);
      this.open = null;
    }
    const newest = whole[done]!;
    if (done === whole.length - 1) cutTick = this.fold(newest, horizon, a, cutTick);
    if (cutTick > 0) this.learned = a.learned;
    return cutTick;
  }

  private analyse(
    pieces: readonly Piece[],
    endTick: number,
    settings: TrackerSettings,
    ammeter: Ammeter,
  ): Analysis {
    const quietA = quietest(pieces, ammeter);
    const own = { countA: ammeter.countA, quietA };
    const joined = cleanSpans(spansOf(pieces, endTick), quietA);
    const first = boardFrom(joined, settings, this.learned, own);
    const { spans, inrushes } = takeInrushes(joined, first.board);
    const fed = backdateOff(dropSpikes(spans, first.board.zeroA, quietA), first.board);
    const calm = markCeilings(fed, first.board);
    const { board, learned } = boardFrom(calm, settings, this.learned, own);
    const rushed = new Map(inrushes.map((rush) => [rush.tick, rush.peakA]));
    const named = nameStages(calm, board, this.state, rushed);
    return { spans: calm, board, learned, named, inrush: inrushMarks(inrushes) };
  }

  /** The named stretches with the folded part of the first one put back before them. */
  private withOpen(named: readonly Named[]): Named[] {
    return this.open === null ? [...named] : mergeSame([this.open, ...named]);
  }

  /** A merged stretch without the folded span in front. */
  private unopened(merged: Named): Named {
    const spans = merged.spans.filter((s) => s.start >= this.open!.end);
    return { ...merged, spans: spans.length > 0 ? spans : merged.spans.slice(-1) };
  }

  private keep(named: readonly Named[], board: Board): void {
    for (const n of named) {
      if (this.stages.length < MOST_KEPT) this.stages.push(stageOf(n, board, true));
    }
    this.furthest = further(this.furthest, named, board);
  }

  private keepSteps(named: readonly Named[], board: Board): void {
    const { steps, base } = staircaseSteps(named, this.stepBase, board);
    for (const step of steps) if (this.steps.length < MOST_KEPT) this.steps.push(step);
    this.stepBase = base;
  }

  private keepMarks(a: Analysis, cutTick: number): void {
    const old = a.spans.filter((s) => s.end <= cutTick);
    const { marks, lastFed } = spanMarks(old, a.board, this.fed, this.feedSince);
    const before = a.inrush.filter((m) => m.atS * TICKS_PER_SECOND < cutTick);
    for (const mark of [...before, ...marks]) {
      if (this.marks.length < MOST_KEPT) this.marks.push(mark);
    }
    if (old.length > 0) this.fed = lastFed;
  }

  /** Joins the older spans of the newest stage into one; returns the tick that it reaches to. */
  private fold(newest: Named, horizon: number, a: Analysis, cutTick: number): number {
    const from = this.open === null ? 0 : 1;
    let to = from;
    while (to < newest.spans.length - 1 && newest.spans[to]!.end <= horizon) to++;
    if (newest.stage === 'cycling') {
      while (to > from && !startsRise(newest.spans, to, a.board)) to--;
    }
    if (to - from < FOLD_AT) return cutTick;
    const own = newest.spans.slice(0, to);
    const part: Named = {
      ...newest,
      end: own[to - 1]!.end,
      spans: [joinSpans(own, 0, to)],
      facts: this.foldedFacts(newest, own.slice(from), a.board),
    };
    const fresh = { ...newest, spans: own.slice(from) };
    this.keepMarks({ ...a, spans: a.spans.filter((s) => s.start >= cutTick) }, part.end);
    this.keepSteps([fresh], a.board);
    this.furthest = further(this.furthest, [fresh], a.board);
    this.state = stateAfter(this.state, part, a.board);
    this.open = part;
    return part.end;
  }

  private foldedFacts(newest: Named, own: readonly Span[], board: Board): Named['facts'] {
    if (newest.facts.loop === undefined) return newest.facts;
    const run = findCycles(own, board, this.state.ran, this.state.loop)[0];
    const loop = run?.facts ?? newest.facts.loop;
    const last = loop.last.map((b) => ({ ...b, up: -1, down: 0 }));
    return { ...newest.facts, loop: { ...loop, last } };
  }
}

/**
 * The ammeter's own noise in amps as the quietest piece shows it: in a short trace read once a
 * second the running estimate has hardly seen two readings of one level.
 */
function quietest(pieces: readonly Piece[], ammeter: Ammeter): number {
  let quiet = ammeter.quietA;
  let all = 0;
  for (const p of pieces) all += p.diffs;
  // Of many short pieces the quietest is quiet by luck: then only long ones count.
  const least = all > 200 ? 20 : 2;
  const few = all > 200 ? 20 : 1;
  for (const p of pieces) {
    if (p.diffs < (p.feed === 'off' ? Math.min(least, few) : least)) continue;
    const own = Math.sqrt(p.diffSquares / (2 * p.diffs)) * (1 + 1.5 / Math.sqrt(p.diffs));
    quiet = Math.min(quiet, own);
  }
  return Math.max(quiet, ammeter.countA / Math.sqrt(12), 1e-5);
}

function startsRise(spans: readonly Span[], at: number, board: Board): boolean {
  const before = spans[at - 1]!;
  const here = spans[at]!;
  const low = levelOf(before, board.runV) <= board.lowA;
  return low && levelOf(here, board.runV) > board.lowA;
}

function stageOf(named: Named, board: Board, final: boolean): Stage {
  const { piece } = joinSpans(named.spans, 0, named.spans.length);
  const { confidence, reason } = verdictOf(named, board);
  const ripple = rippleA(piece, board);
  return {
    stage: named.stage,
    startS: named.start / TICKS_PER_SECOND,
    endS: named.end / TICKS_PER_SECOND,
    meanA: piece.samples > 0 ? piece.ampsSum / piece.samples : null,
    meanV: piece.voltsBins > 0 ? piece.volts : null,
    confidence,
    reason,
    periodS: named.facts.loop?.periodS ?? null,
    ...(piece.samples > 0 ? { plusMinusA: meanUncertaintyA(piece, board) } : {}),
    ...(ripple === null ? {} : { rippleA: ripple }),
    final,
  };
}
