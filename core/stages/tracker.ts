import { TimeIntegral } from '../trace/integrals.ts';
import {
  REGULATION_CODES,
  type Regulation,
  type Sample,
  TICKS_PER_SECOND,
  type TraceColumns,
} from '../trace/sample.ts';
import { type Bin, Binner } from './bin.ts';
import type { FeedState, Piece } from './piece.ts';
import { secondsWords, voltsWords } from './quantity-words.ts';
import { Segmenter } from './segmenter.ts';
import type { Mark, StageReport, TrackerSettings } from './stage.ts';
import { MOST_KEPT, StageHistory } from './stage-history.ts';

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
  /** A guard tripped; `text` says on what, beyond which limit, and what was done. */
  guardTrip(atTick: number, text: string): void;
}

/** Seconds between two looks at what can be kept for good. */
const SETTLE_S = 30;

class StageTracker implements Tracker {
  private settings: TrackerSettings;
  private readonly binner = new Binner();
  private readonly segmenter = new Segmenter();
  private readonly history = new StageHistory();
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
  private settleTick = SETTLE_S * TICKS_PER_SECOND;

  constructor(settings: TrackerSettings) {
    const sound = soundSettings(settings);
    // The running level was seen at the volts that were set then, whatever is set later.
    this.settings = { ...sound, runningV: sound.runningV ?? sound.setV };
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
      this.mark({
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
    if (bin === null) return;
    this.segmenter.push(bin, this.feedStateOf(bin));
    if (tick >= this.settleTick) this.settle(tick);
  }

  /** Keeps for good what can no longer change: on a fixed rhythm of ticks, whoever asks when. */
  private settle(tick: number): void {
    this.settleTick = tick + SETTLE_S * TICKS_PER_SECOND;
    const { pieces } = this.segmenter;
    const cut = this.history.settle(pieces, tick, this.settings, this.segmenter.ammeter());
    this.segmenter.dropBefore(cut);
  }

  private mark(mark: Mark): void {
    if (this.marks.length < MOST_KEPT) this.marks.push(mark);
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
    const least = bin.volts < 0.3 * this.offVolts() ? 0.03 : 0.01;
    const quiet = Math.abs(bin.amps) <= Math.max(least, 5 * sigma);
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
      this.mark({
        mark: on ? 'output-on' : 'output-off',
        atS: tick / TICKS_PER_SECOND,
        text: Number.isNaN(volts) ? text : `${text.slice(0, -1)}, ${voltsWords(volts)}.`,
      });
    }
    this.wasOn = on;
  }

  changeFeed(atTick: number, f: { setV: number | null; limitA: number | null }): void {
    this.history.feedSince = atTick;
    this.settings = soundSettings({ ...this.settings, setV: f.setV, limitA: f.limitA });
  }

  wakeRequest(atTick: number): void {
    this.mark({
      mark: 'wake-request',
      atS: atTick / TICKS_PER_SECOND,
      text: 'Wake request.',
    });
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
    return this.build(this.segmenter.preview(bin, this.feedStateOf(bin)), false);
  }

  finish(): StageReport {
    if (!this.finished) {
      const bin = this.binner.peek();
      if (bin !== null) this.segmenter.push(bin, this.feedStateOf(bin));
      this.finished = true;
    }
    return this.build(this.segmenter.pieces, true);
  }

  private build(pieces: readonly Piece[], closed: boolean): StageReport {
    const end = Number.isNaN(this.lastTick) ? 0 : this.lastTick;
    const ammeter = this.segmenter.ammeter();
    const reading = this.history.read(pieces, end, this.settings, ammeter, closed);
    const marks = [...this.marks, ...reading.marks].sort((a, b) => a.atS - b.atS);
    return {
      trackerVersion: TRACKER_VERSION,
      samples: this.samples,
      durationS: Number.isNaN(this.firstTick) ? 0 : (end - this.firstTick) / TICKS_PER_SECOND,
      reach: reading.reach,
      stages: reading.stages,
      marks,
      steps: reading.steps,
      energyWh: hours(this.watts.total()),
      chargeAh: hours(this.amps.total()),
      peakA: this.peak,
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
