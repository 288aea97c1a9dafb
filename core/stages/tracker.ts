import { TimeIntegral } from '../trace/integrals.ts';
import {
  REGULATION_CODES,
  type Regulation,
  type Sample,
  TICKS_PER_SECOND,
  type TraceColumns,
} from '../trace/sample.ts';
import { Binner } from './bin.ts';
import { FeedReader } from './feed-reader.ts';
import { GapMeter } from './gap-meter.ts';
import type { Piece } from './piece.ts';
import { secondsWords, voltsWords } from './quantity-words.ts';
import { Segmenter } from './segmenter.ts';
import type { FeedChange, Mark, StageReport, TrackerSettings } from './stage.ts';
import { MOST_KEPT, StageHistory } from './stage-history.ts';

/** Goes up whenever the same samples could get other stages: stored with every run. */
export const TRACKER_VERSION = 2;

/**
 * Follows a run sample by sample and says what its draw is doing.
 *
 * Readings are joined into bins of 20 ms (`bin.ts`), the bins cut into pieces about one level
 * (`segmenter.ts`: an adaptive band and a two-sided CUSUM), and the pieces named whenever somebody
 * asks (`stage-history.ts`). What ended 90 s ago or more is kept for good and its pieces dropped, so
 * that memory and the cost of a report do not grow with the run. Naming goes by these rules, in
 * this order; levels are compared at the board's running volts, so that equal watts count as equal
 * draw, and `R` is the board's running level.
 *
 *  1. Cuts that noise, 5 % of the level or one slope explain are taken back (`span.ts`, exact
 *     partition); readings caught on an edge join what follows; single spikes join their level.
 *  2. A peak at 1.4 times or more of what follows, straight out of output off or no draw, is an
 *     inrush: a mark and no stage. So is a capacitor that fills for up to 5 s (`inrush.ts`).
 *  3. Output off: the supply says so, or volts and current are near zero. Without volts, no draw
 *     that an inrush or a fresh start ends is taken for it.
 *  4. Current limit: the supply says so; or 95 % of the limit (until the draw leaves 90 %) with the
 *     volts below 97 % of their set-point, for 0.25 s or more, 0.5 s straight after output on; or,
 *     with no limit told, a flat ceiling while the volts collapse (`ceiling.ts`).
 *  5. Cycling: two rises out of low draw or more, alike in height and length, 0.3 to 30 s apart.
 *     Short bursts of a board asleep do not count (`cycles.ts`).
 *  6. No draw: within the zero floor, learned from output off or from the lowest level of the run.
 *  7. Flat low draw: at most 0.2 R; without R at most a quarter of the highest level held, or small
 *     in a run that never climbed. The first plateau straight after no draw counts up to 0.4 R when
 *     the draw climbs from it.
 *  8. Fell back: no or low draw after a climb. A dip of up to 2 s that the board climbs out of again
 *     is a restart, named stepping.
 *  9. Stepping: from the first step off the first plateau to where the climb settles (`climb.ts`).
 * 10. It settles as running from 0.8 R (held for 2 s on the mean), as flat high above 1.25 R when it
 *     stands there for 8 s, or for 3 s without moving, as stalled below 0.8 R when flat for 3 s at
 *     the end or for 10 s before a later step. Loads that come and go on a running board are
 *     running. Without R a draw that moves with work is running and a flat one stalled, except that a
 *     single jump to a flat draw at about 24 V is running; the reason says that level cannot tell.
 * 11. Creeping: inside any steady stage, a straight slope of 10 % of its level or more over 6 s or
 *     more, beyond noise and without steps (`creep.ts`).
 */
export interface Tracker {
  /**
   * Takes the next reading. One without amps, or that lies before the newest, is left out; a value of
   * 1e9 or more (an instrument's word for overload) counts as not read.
   */
  push(sample: Sample): void;
  /** What is known so far; the newest stretch may still be renamed. */
  report(): StageReport;
  /** The last word: boundaries by the final pass, every stage final. */
  finish(): StageReport;
  /** From this tick on the supply is set to these volts and this limit. */
  changeFeed(atTick: number, f: { setV: number | null; limitA: number | null }): void;
  wakeRequest(atTick: number): void;
  note(atTick: number, text: string): void;
  guardTrip(atTick: number, text: string): void;
}

/** Seconds between two looks at what can be kept for good. */
const SETTLE_S = 30;
/** From here up a number stands for overload, infinity or no data (SCPI-1999 vol. 1, 7.2.1). */
const NO_NUMBER = 1e9;

class StageTracker implements Tracker {
  private settings: TrackerSettings;
  private readonly feed: FeedReader;
  private readonly gaps = new GapMeter();
  private readonly binner = new Binner();
  private readonly segmenter = new Segmenter();
  private readonly history = new StageHistory();
  private readonly amps = new TimeIntegral();
  private readonly watts = new TimeIntegral();
  private readonly marks: Mark[] = [];
  private readonly feedChanges: FeedChange[] = [];
  private samples = 0;
  private firstTick = Number.NaN;
  private lastTick = Number.NaN;
  private peak: number | null = null;
  private finished = false;
  private settleTick = SETTLE_S * TICKS_PER_SECOND;

  constructor(settings: TrackerSettings) {
    const sound = soundSettings(settings);
    // The running level was seen at the volts that were set then, whatever is set later.
    this.settings = { ...sound, runningV: sound.runningV ?? sound.setV };
    this.feed = new FeedReader(this.settings);
  }

  push(sample: Sample): void {
    const { tick, amps, volts, regulation, outputOn } = sample;
    this.take(tick, amps ?? Number.NaN, volts ?? Number.NaN, regulation, outputOn);
  }

  take(
    tick: number,
    amps: number,
    readVolts: number,
    regulation: Regulation | null,
    outputOn: boolean | null,
  ): void {
    if (!Number.isFinite(tick) || tick < this.lastTick) return;
    this.samples++;
    if (Number.isNaN(this.firstTick)) this.firstTick = tick;
    if (!(Math.abs(amps) < NO_NUMBER)) return;
    const volts = Math.abs(readVolts) < NO_NUMBER ? readVolts : Number.NaN;
    const gap = this.gaps.isGap(tick - this.lastTick);
    if (gap) this.startAfterGap(tick);
    this.lastTick = tick;
    const atS = tick / TICKS_PER_SECOND;
    this.amps.push(atS, amps, !gap);
    this.watts.push(atS, amps * volts, !gap);
    this.peak = this.peak === null ? amps : Math.max(this.peak, amps);
    this.segmenter.noise.seeReading(amps);
    const switched = this.feed.switched(volts, amps, regulation, outputOn);
    if (switched !== null) this.markSwitch(switched, atS, volts);
    const bin = this.binner.push(tick, amps, volts, regulation, outputOn, gap);
    if (bin === null) return;
    this.segmenter.push(bin, this.feed.take(bin, this.segmenter.noise.sigma()));
    if (tick >= this.settleTick) this.settle(tick);
  }

  private startAfterGap(tick: number): void {
    const s = (tick - this.lastTick) / TICKS_PER_SECOND;
    const atS = this.lastTick / TICKS_PER_SECOND;
    this.mark({ mark: 'gap', atS, text: `No readings for ${secondsWords(s)}.` });
    this.segmenter.noise.skip();
  }

  private markSwitch(mark: 'output-on' | 'output-off', atS: number, volts: number): void {
    const words = mark === 'output-on' ? 'Output on' : 'Output off';
    const text = Number.isNaN(volts) ? `${words}.` : `${words}, ${voltsWords(volts)}.`;
    this.mark({ mark, atS, text });
  }

  private mark(mark: Mark): void {
    if (this.marks.length < MOST_KEPT) this.marks.push(mark);
  }

  /** Keeps for good what can no longer change: on a fixed rhythm of ticks, whoever asks when. */
  private settle(tick: number): void {
    this.settleTick = tick + SETTLE_S * TICKS_PER_SECOND;
    const { pieces } = this.segmenter;
    const cut = this.history.settle(pieces, tick, this.settings, this.segmenter.ammeter());
    this.segmenter.dropBefore(cut);
  }

  changeFeed(atTick: number, f: { setV: number | null; limitA: number | null }): void {
    this.history.feedSince = atTick;
    this.settings = soundSettings({ ...this.settings, setV: f.setV, limitA: f.limitA });
    this.feed.settings = this.settings;
    const { setV, limitA } = this.settings;
    if (this.feedChanges.length < MOST_KEPT) {
      this.feedChanges.push({ atS: atTick / TICKS_PER_SECOND, setV, limitA });
    }
  }

  wakeRequest(atTick: number): void {
    this.mark({ mark: 'wake-request', atS: atTick / TICKS_PER_SECOND, text: 'Wake request.' });
  }

  note(atTick: number, text: string): void {
    this.mark({ mark: 'note', atS: atTick / TICKS_PER_SECOND, text });
  }

  guardTrip(atTick: number, text: string): void {
    this.mark({ mark: 'guard-trip', atS: atTick / TICKS_PER_SECOND, text });
  }

  report(): StageReport {
    const bin = this.finished ? null : this.binner.peek();
    if (bin === null) return this.build(this.segmenter.pieces, this.finished);
    const state = this.feed.stateOf(bin, this.segmenter.noise.sigma());
    return this.build(this.segmenter.preview(bin, state), false);
  }

  finish(): StageReport {
    const bin = this.finished ? null : this.binner.peek();
    if (bin !== null) {
      this.segmenter.push(bin, this.feed.take(bin, this.segmenter.noise.sigma()));
    }
    this.finished = true;
    return this.build(this.segmenter.pieces, true);
  }

  private build(pieces: readonly Piece[], closed: boolean): StageReport {
    const end = Number.isNaN(this.lastTick) ? 0 : this.lastTick;
    const ammeter = this.segmenter.ammeter();
    const reading = this.history.read(pieces, end, this.settings, ammeter, closed);
    const known = !Number.isNaN(this.firstTick) && !Number.isNaN(this.lastTick);
    return {
      trackerVersion: TRACKER_VERSION,
      samples: this.samples,
      durationS: known ? (end - this.firstTick) / TICKS_PER_SECOND : 0,
      reach: reading.reach,
      stages: reading.stages,
      marks: [...this.marks, ...reading.marks].sort((a, b) => a.atS - b.atS),
      steps: reading.steps,
      energyWh: hours(this.watts.total()),
      chargeAh: hours(this.amps.total()),
      peakA: this.peak,
      ...(this.feedChanges.length === 0 ? {} : { feedChanges: [...this.feedChanges] }),
    };
  }
}

/** Settings in which a level or limit that is no positive number counts as not known. */
function soundSettings(settings: TrackerSettings): TrackerSettings {
  const positive = (value: number | null) =>
    value !== null && Number.isFinite(value) && value > 0 ? value : null;
  return {
    ...settings,
    setV: positive(settings.setV),
    limitA: positive(settings.limitA),
    runningA: positive(settings.runningA),
    runningV: positive(settings.runningV),
    wakesWithinS: positive(settings.wakesWithinS),
  };
}

function hours(total: number | null): number | null {
  return total === null ? null : total / 3600;
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
