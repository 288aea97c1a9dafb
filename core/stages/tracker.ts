import { TimeIntegral } from '../trace/integrals.ts';
import {
  REGULATION_CODES,
  type Regulation,
  type Sample,
  TICKS_PER_SECOND,
  type TraceColumns,
} from '../trace/sample.ts';
import { type Bin, Binner } from './bin.ts';
import { boardFrom, levelOf, NOTHING_LEARNED } from './board.ts';
import { takeInrushes } from './inrush.ts';
import { isZero, nameStages } from './name-stages.ts';
import type { Named } from './named.ts';
import { type FeedState, joinPieces, pieceSd } from './piece.ts';
import { ampsWords, secondsWords, voltsWords } from './quantity-words.ts';
import { Segmenter } from './segmenter.ts';
import { joinAlike, joinSlopes, joinSpans, type Span, spanS, spansOf } from './span.ts';
import type { Mark, Reach, StageReport, Step, TrackerSettings } from './stage.ts';

/** Goes up whenever the same samples could get other stages: stored with every run. */
export const TRACKER_VERSION = 1;

/** Follows a run sample by sample and says what its draw is doing. */
export interface Tracker {
  push(sample: Sample): void;
  /** What is known so far; the newest stretch may still be renamed. */
  report(): StageReport;
  /** The last word: boundaries by the final pass, every stage final. */
  finish(): StageReport;
  changeFeed(atTick: number, f: { setV: number | null; limitA: number | null }): void;
  wakeRequest(atTick: number): void;
  note(atTick: number, text: string): void;
}

class StageTracker implements Tracker {
  private settings: TrackerSettings;
  private readonly binner = new Binner();
  private readonly segmenter = new Segmenter();
  private readonly amps = new TimeIntegral();
  private readonly watts = new TimeIntegral();
  private readonly marks: Mark[] = [];
  private samples = 0;
  private firstTick = Number.NaN;
  private lastTick = Number.NaN;
  private stepTicks = Number.NaN;
  private intervals = 0;
  private peak: number | null = null;
  private feedV = Number.NaN;
  private wasOn: boolean | null = null;
  private finished = false;

  constructor(settings: TrackerSettings) {
    this.settings = settings;
  }

  push(sample: Sample): void {
    this.take(
      sample.tick,
      sample.amps ?? Number.NaN,
      sample.volts ?? Number.NaN,
      sample.regulation,
      sample.outputOn,
    );
  }

  take(
    tick: number,
    amps: number,
    volts: number,
    regulation: Regulation | null,
    outputOn: boolean | null,
  ): void {
    if (!Number.isFinite(tick) || tick < this.lastTick) return;
    this.samples++;
    const hasAmps = Number.isFinite(amps);
    if (!Number.isFinite(volts)) volts = Number.NaN;
    if (Number.isNaN(this.firstTick)) this.firstTick = tick;
    if (!hasAmps) return;
    const dt = tick - this.lastTick;
    const gap = this.isGap(dt);
    if (gap) {
      this.marks.push({
        mark: 'gap',
        atS: this.lastTick / TICKS_PER_SECOND,
        text: `No readings for ${secondsWords(dt / TICKS_PER_SECOND)}.`,
      });
    }
    this.lastTick = tick;
    const atS = tick / TICKS_PER_SECOND;
    this.amps.push(atS, amps, !gap);
    this.watts.push(atS, amps * volts, !gap);
    this.peak = this.peak === null ? amps : Math.max(this.peak, amps);
    if (gap) this.segmenter.noise.skip();
    this.segmenter.noise.seeReading(amps);
    this.noteOutput(tick, volts, amps, regulation, outputOn);
    const bin = this.binner.push(tick, amps, volts, regulation, outputOn, gap);
    if (bin !== null) this.segmenter.push(bin, this.feedStateOf(bin));
  }

  private isGap(dt: number): boolean {
    if (Number.isNaN(dt)) return false;
    if (this.intervals < 8) {
      const gap = this.intervals >= 3 && dt > Math.max(4 * this.stepTicks, 4000);
      if (!gap) {
        this.intervals++;
        this.stepTicks = Number.isNaN(this.stepTicks) ? dt : Math.min(this.stepTicks, dt);
        if (this.stepTicks < 1) this.stepTicks = 1;
      }
      return gap;
    }
    const gap = dt > Math.max(2.6 * this.stepTicks, 4000);
    this.stepTicks *= dt > this.stepTicks ? 1.05 : 1 / 1.05;
    if (this.stepTicks < 1) this.stepTicks = 1;
    return gap;
  }

  /** Volts under which nothing is fed. */
  private offVolts(): number {
    const { setV } = this.settings;
    return setV !== null && setV < 2 ? 0.3 * setV : 1;
  }

  private feedStateOf(bin: Bin): FeedState {
    const sigma = this.segmenter.noise.sigma();
    const quiet = Math.abs(bin.amps) <= Math.max(0.01, 5 * sigma);
    if (bin.outputOn === false || bin.regulation === 'off') return 'off';
    if (bin.volts < this.offVolts() && quiet && bin.regulation !== 'cc') return 'off';
    if (bin.regulation === 'cc' && !quiet) return 'limit';
    const { limitA, setV } = this.settings;
    const ref = setV ?? (Number.isNaN(this.feedV) ? null : this.feedV);
    const short = Number.isNaN(bin.volts) || ref === null || bin.volts < 0.97 * ref;
    if (limitA !== null && bin.amps >= 0.95 * limitA && short) return 'limit';
    if (bin.volts > 1 && !(bin.volts <= this.feedV)) this.feedV = bin.volts;
    return 'on';
  }

  private noteOutput(
    tick: number,
    volts: number,
    amps: number,
    regulation: Regulation | null,
    outputOn: boolean | null,
  ): void {
    let on: boolean | null = null;
    if (outputOn !== null) on = outputOn;
    else if (regulation !== null) on = regulation !== 'off';
    else if (!Number.isNaN(volts)) {
      const fed = volts >= this.offVolts() || Math.abs(amps) > 0.05;
      on = fed || (this.wasOn === true && volts > 0.3 * this.offVolts());
    }
    if (on === null) return;
    if (this.wasOn !== null && on !== this.wasOn) {
      const text = on ? 'Output on.' : 'Output off.';
      this.marks.push({
        mark: on ? 'output-on' : 'output-off',
        atS: tick / TICKS_PER_SECOND,
        text: Number.isNaN(volts) ? text : `${text.slice(0, -1)}, ${voltsWords(volts)}.`,
      });
    }
    this.wasOn = on;
  }

  changeFeed(atTick: number, f: { setV: number | null; limitA: number | null }): void {
    void atTick;
    this.settings = { ...this.settings, setV: f.setV, limitA: f.limitA };
  }

  wakeRequest(atTick: number): void {
    this.marks.push({
      mark: 'wake-request',
      atS: atTick / TICKS_PER_SECOND,
      text: 'Wake request.',
    });
  }

  note(atTick: number, text: string): void {
    this.marks.push({ mark: 'note', atS: atTick / TICKS_PER_SECOND, text });
  }

  report(): StageReport {
    return this.build(false);
  }

  finish(): StageReport {
    if (!this.finished) {
      const bin = this.binner.peek();
      if (bin !== null) this.segmenter.push(bin, this.feedStateOf(bin));
      this.finished = true;
    }
    return this.build(true);
  }

  private build(closed: boolean): StageReport {
    const end = Number.isNaN(this.lastTick) ? 0 : this.lastTick;
    const raw = easeLimits(spansOf(this.segmenter.pieces, end));
    const joined = joinSlopes(joinAlike(joinEdges(joinAlike(raw))));
    const first = boardFrom(joined, this.settings, NOTHING_LEARNED, this.segmenter.noise.quantum());
    const { spans, inrushes } = takeInrushes(joined, first.board);
    const calm = dropSpikes(spans, first.board.zeroA);
    const { board } = boardFrom(
      calm,
      this.settings,
      NOTHING_LEARNED,
      this.segmenter.noise.quantum(),
    );
    const named = nameStages(calm, board, false);
    const marks = [...this.marks];
    for (const rush of inrushes) {
      marks.push({
        mark: 'inrush',
        atS: rush.tick / TICKS_PER_SECOND,
        text: `Inrush to ${ampsWords(rush.peakA)}, then ${ampsWords(rush.laterA)}.`,
      });
    }
    marks.push(...feedMarks(calm));
    marks.sort((a, b) => a.atS - b.atS);
    return {
      trackerVersion: TRACKER_VERSION,
      samples: this.samples,
      durationS: Number.isNaN(this.firstTick) ? 0 : (end - this.firstTick) / TICKS_PER_SECOND,
      reach: reachOf(named, board),
      stages: named.map((n, i) => {
        const s = joinSpans(n.spans, 0, n.spans.length).piece;
        return {
          stage: n.stage,
          startS: n.start / TICKS_PER_SECOND,
          endS: n.end / TICKS_PER_SECOND,
          meanA: s.ampsSum / s.samples,
          meanV: s.voltsBins > 0 ? s.volts : null,
          confidence: n.confidence,
          reason: n.reason,
          periodS: n.periodS,
          final: closed || i < named.length - 1,
        };
      }),
      marks,
      steps: stepsOf(named),
      energyWh: hours(this.watts.total()),
      chargeAh: hours(this.amps.total()),
      peakA: this.peak,
    };
  }
}

function hours(total: number | null): number | null {
  return total === null ? null : total / 3600;
}

/** A moment at the limit is an inrush or a peak, not a stage. */
function easeLimits(spans: readonly Span[]): Span[] {
  return spans.map((span, i) => {
    if (span.piece.feed !== 'limit') return span;
    const neighbour = spans[i - 1];
    const fresh = neighbour === undefined || neighbour.piece.feed === 'off';
    const s = spanS(span);
    const brief = s < (fresh ? 0.5 : 0.25) && i + 1 < spans.length;
    return brief ? { ...span, piece: { ...span.piece, feed: 'on' } } : span;
  });
}

/** Joins the readings in the middle of an edge to what follows it: they are no level. */
function joinEdges(spans: readonly Span[]): Span[] {
  const out: Span[] = [];
  for (let i = 0; i < spans.length; i++) {
    const span = spans[i]!;
    const before = out[out.length - 1];
    let end = i;
    if (before !== undefined && before.piece.feed === 'on') {
      const way = Math.sign(span.piece.amps - before.piece.amps);
      while (
        end + 1 < spans.length &&
        spanS(spans[end]!) <= 0.12 &&
        spans[end]!.piece.bins <= 3 &&
        spans[end]!.piece.feed === 'on' &&
        spans[end + 1]!.piece.feed === 'on' &&
        Math.sign(spans[end + 1]!.piece.amps - spans[end]!.piece.amps) === way
      ) {
        end++;
      }
    }
    const target = spans[end]!;
    out.push(
      end > i
        ? { piece: { ...target.piece, tick: span.start }, start: span.start, end: target.end }
        : span,
    );
    i = end;
  }
  return out;
}

/** A single reading that stands out of a level on both sides is a spike of that level. */
function dropSpikes(spans: readonly Span[], zeroA: number): Span[] {
  const out: Span[] = [];
  for (let i = 0; i < spans.length; i++) {
    const span = spans[i]!;
    const before = out[out.length - 1];
    const next = spans[i + 1];
    if (
      before !== undefined &&
      next !== undefined &&
      spanS(span) <= 0.06 &&
      before.piece.feed === 'on' &&
      next.piece.feed === 'on' &&
      span.piece.feed === 'on' &&
      before.piece.amps > zeroA &&
      span.piece.amps > 0.5 * before.piece.amps &&
      Math.abs(before.piece.amps - next.piece.amps) <
        Math.max(0.1 * before.piece.amps, 3 * pieceSd(before.piece), 0.002)
    ) {
      const level = joinPieces(before.piece, next.piece);
      out[out.length - 1] = {
        piece: { ...level, ampsMax: Math.max(level.ampsMax, span.piece.ampsMax) },
        start: before.start,
        end: next.end,
      };
      i++;
    } else out.push(span);
  }
  return out;
}

function feedMarks(spans: readonly Span[]): Mark[] {
  const marks: Mark[] = [];
  let last: Span | null = null;
  for (const span of spans) {
    const p = span.piece;
    if (p.feed !== 'on') {
      last = null;
      continue;
    }
    if (p.voltsBins === 0 || p.volts < 1 || (spanS(span) < 0.25 && p.bins < 3)) continue;
    if (last !== null) {
      const a = last.piece;
      const moved = Math.abs(p.volts - a.volts) > Math.max(0.1 * Math.max(p.volts, a.volts), 0.4);
      if (moved) {
        marks.push({
          mark: 'feed-change',
          atS: span.start / TICKS_PER_SECOND,
          text: `Feed from ${voltsWords(a.volts)} to ${voltsWords(p.volts)}: ${(a.volts * a.amps).toFixed(2)} W before, ${(p.volts * p.amps).toFixed(2)} W after.`,
        });
      }
    }
    last = span;
  }
  return marks;
}

function stepsOf(named: readonly Named[]): Step[] {
  const steps: Step[] = [];
  const climbs = ['stepping', 'running', 'stalled', 'flat-high'];
  const starts = ['flat-low', 'no-draw', 'stepping', 'stalled', 'fell-back'];
  let last: { stage: string; amps: number } | null = null;
  for (const n of named) {
    if (climbs.includes(n.stage)) {
      n.spans.forEach((span, i) => {
        const own = i === 0 ? last !== null && starts.includes(last.stage) : n.stage === 'stepping';
        if (own)
          steps.push({
            atS: span.start / TICKS_PER_SECOND,
            fromA: last!.amps,
            toA: span.piece.amps,
          });
        last = { stage: n.stage, amps: span.piece.amps };
      });
    } else last = { stage: n.stage, amps: n.spans[n.spans.length - 1]!.piece.amps };
  }
  return steps;
}

function reachOf(named: readonly Named[], board: Parameters<typeof nameStages>[1]): Reach {
  const order = ['off', 'no-draw', 'flat-low', 'stepping', 'running'] as const;
  let best = 0;
  let held: Span | null = null;
  for (const n of named) {
    let rank = order.indexOf(n.stage as (typeof order)[number]);
    if (n.stage === 'stalled' || n.stage === 'cycling') rank = 3;
    if (n.stage === 'flat-high') rank = 4;
    if (n.stage === 'limited') rank = 1;
    if (n.stage === 'creeping' || n.stage === 'fell-back') rank = 2;
    best = Math.max(best, rank);
    for (const span of n.spans) {
      if (spanS(span) < 0.5 && span.piece.bins < 3) continue;
      if (span.piece.feed === 'off') continue;
      if (held === null || levelOf(span, board.runV) > levelOf(held, board.runV)) held = span;
    }
  }
  if (held === null || isZero(held, board)) {
    return {
      stage: order[best]!,
      heldA: held === null ? null : held.piece.amps,
      heldW: null,
      share: null,
    };
  }
  const p = held.piece;
  return {
    stage: order[best]!,
    heldA: p.amps,
    heldW: p.voltsBins > 0 ? p.amps * p.volts : null,
    share: board.runA === null ? null : levelOf(held, board.runV) / board.runA,
  };
}

/** A tracker for one run with what is known of its board and feed. */
export function createTracker(settings: TrackerSettings): Tracker {
  return new StageTracker(settings);
}

/** Classifies a whole trace: exactly what pushing its samples one by one and finishing gives. */
export function classifyTrace(columns: TraceColumns, settings: TrackerSettings): StageReport {
  const tracker = new StageTracker(settings);
  const n = columns.ticks.length;
  for (let i = 0; i < n; i++) {
    tracker.take(
      columns.ticks[i]!,
      columns.amps[i]!,
      columns.volts[i]!,
      REGULATION_CODES[columns.regulation[i]!] ?? null,
      null,
    );
  }
  return tracker.finish();
}
