/** Ticks under which nothing counts as a gap, and the multiple of the usual interval that does. */
const LEAST_TICKS = 4000;
const TIMES = 2.6;
/** Intervals that are seen before the usual one is trusted. */
const WARM_UP = 8;

/**
 * Tells gaps from the usual interval between readings: more than 0.4 s and more than 2.6 times as
 * long. The usual interval is learned: it follows the readings' median by 5 % a reading, so that a
 * gap does not change it and another rate does.
 */
export class GapMeter {
  private usualTicks = Number.NaN;
  private seen = 0;

  /** Whether this interval in ticks is a gap. */
  isGap(ticks: number): boolean {
    if (Number.isNaN(ticks)) return false;
    if (this.seen < WARM_UP) return this.warmUp(ticks);
    const gap = ticks > Math.max(TIMES * this.usualTicks, LEAST_TICKS);
    this.usualTicks = Math.max(1, this.usualTicks * (ticks > this.usualTicks ? 1.05 : 1 / 1.05));
    return gap;
  }

  private warmUp(ticks: number): boolean {
    if (this.seen >= 3 && ticks > Math.max(4 * this.usualTicks, LEAST_TICKS)) return true;
    this.seen++;
    this.usualTicks = Number.isNaN(this.usualTicks) ? ticks : Math.min(this.usualTicks, ticks);
    this.usualTicks = Math.max(1, this.usualTicks);
    return false;
  }
}
