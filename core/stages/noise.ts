import { NORMAL_QUARTILE } from '../trace/statistics.ts';

const WINDOW = 25;

/**
 * The noise of the readings just now: sigma from the median absolute difference of the last 25
 * pairs of neighbours (level changes and spikes barely move a median), never less than what the
 * instrument's resolution alone makes (one count / sqrt 12). The count is learned as the smallest
 * difference seen between two neighbours.
 */
export class NoiseMeter {
  /** Smallest step between readings in amps; Infinity until two differ. */
  countA = Number.POSITIVE_INFINITY;
  private readonly ring = new Float64Array(WINDOW);
  private readonly sorted = new Float64Array(WINDOW);
  private filled = 0;
  private next = 0;
  private last = Number.NaN;
  private lastRaw = Number.NaN;

  /** Learns the resolution from a single reading. */
  seeReading(amps: number): void {
    const step = Math.abs(amps - this.lastRaw);
    if (step > 1e-7 && step < this.countA) this.countA = step;
    this.lastRaw = amps;
  }

  /** Takes the next bin's amps. */
  push(amps: number): void {
    if (!Number.isNaN(this.last)) this.insert(Math.abs(amps - this.last));
    this.last = amps;
  }

  /** The next difference would span a gap: leave it out. */
  skip(): void {
    this.last = Number.NaN;
    this.lastRaw = Number.NaN;
  }

  /** Sigma in amps. */
  sigma(): number {
    const count = this.quantum() / Math.sqrt(12);
    if (this.filled < 3) return Math.max(count, 0.0003);
    const median = this.sorted[this.filled >> 1]!;
    return Math.max(median / NORMAL_QUARTILE / Math.SQRT2, count, 1e-5);
  }

  /** Resolution in amps; 0 when unknown. */
  quantum(): number {
    return Number.isFinite(this.countA) ? this.countA : 0;
  }

  private insert(value: number): void {
    let n = this.filled;
    if (n === WINDOW) {
      const old = this.ring[this.next]!;
      let at = 0;
      while (this.sorted[at]! !== old) at++;
      for (; at < n - 1; at++) this.sorted[at] = this.sorted[at + 1]!;
      n--;
    } else {
      this.filled++;
    }
    this.ring[this.next] = value;
    this.next = (this.next + 1) % WINDOW;
    while (n > 0 && this.sorted[n - 1]! > value) {
      this.sorted[n] = this.sorted[n - 1]!;
      n--;
    }
    this.sorted[n] = value;
  }
}
