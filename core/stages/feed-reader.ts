import type { Regulation } from '../trace/sample.ts';
import type { Bin } from './bin.ts';
import type { FeedState } from './piece.ts';
import type { TrackerSettings } from './stage.ts';

/** Share of the limit from which a draw with short volts is at it, and below which it has left it. */
const AT_LIMIT = 0.95;
const OFF_LIMIT = 0.9;
/** Share of the set volts under which they are short: supplies read back a few per cent off. */
const SHORT_VOLTS = 0.97;

/** What the supply is doing, from its own word where it gives one and from volts and amps else. */
export class FeedReader {
  settings: TrackerSettings;
  private feedV = Number.NaN;
  private atLimit = false;
  private wasOn: boolean | null = null;

  constructor(settings: TrackerSettings) {
    this.settings = settings;
  }

  /** State of the feed over a bin, with `sigma` amps of noise. Learns nothing from it. */
  stateOf(bin: Bin, sigma: number): FeedState {
    const least = bin.volts < 0.3 * this.offVolts() ? 0.03 : 0.01;
    const quiet = Math.abs(bin.amps) <= Math.max(least, 5 * sigma);
    if (bin.outputOn === false || bin.regulation === 'off') return 'off';
    if (bin.volts < this.offVolts() && quiet && bin.regulation !== 'cc') return 'off';
    if (bin.regulation === 'cc' && !quiet) return 'limit';
    const { limitA, setV } = this.settings;
    if (limitA === null) return 'on';
    const ref = setV ?? (Number.isNaN(this.feedV) ? null : this.feedV);
    const short = Number.isNaN(bin.volts) || ref === null || bin.volts < SHORT_VOLTS * ref;
    // Once at the limit, its noise does not end it: the volts come back or the draw falls.
    const share = this.atLimit ? OFF_LIMIT : AT_LIMIT;
    return short && bin.amps >= share * limitA ? 'limit' : 'on';
  }

  /** The same, and remembers the feed's volts and whether it was at the limit. */
  take(bin: Bin, sigma: number): FeedState {
    const state = this.stateOf(bin, sigma);
    this.atLimit = state === 'limit';
    if (state === 'on' && bin.volts > 1 && !(bin.volts <= this.feedV)) this.feedV = bin.volts;
    return state;
  }

  /** Whether the output has just gone on or off with a reading; null when it has not. */
  switched(
    volts: number,
    amps: number,
    regulation: Regulation | null,
    outputOn: boolean | null,
  ): 'output-on' | 'output-off' | null {
    let on: boolean | null = null;
    if (outputOn !== null) on = outputOn;
    else if (regulation !== null) on = regulation !== 'off';
    else if (!Number.isNaN(volts)) {
      const fed = volts >= this.offVolts() || Math.abs(amps) > 0.05;
      on = fed || (this.wasOn === true && volts > 0.3 * this.offVolts());
    }
    if (on === null) return null;
    const before = this.wasOn;
    this.wasOn = on;
    if (before === null || before === on) return null;
    return on ? 'output-on' : 'output-off';
  }

  /** Volts under which nothing is fed. */
  private offVolts(): number {
    const { setV } = this.settings;
    return setV !== null && setV < 2 ? 0.3 * setV : 1;
  }
}
