const WINDOW = 25;
/**
 * Which of the sorted differences is taken, and the normal distribution's quantile there. Lower
 * than the median, so that a staircase read once a second is not taken for noise.
 */
const QUANTILE = 0.4;
const NORMAL_AT_QUANTILE = 0.5244005127080407;
const MOST_PLACES = 6;

/**
 * The noise of the readings just now: sigma from the absolute differences of the last 25 pairs of
 * neighbours at their 40 % quantile (level changes and spikes barely move it), never less than what the
 * instrument's resolution alone makes (one count / sqrt 12). The count is learned from the decimal
 * places that readings need, and from the smallest difference once it has been seen 20 times.
 */
export class NoiseMeter {
  private places = 0;
  private tens = 1;
  private smallest = Number.POSITIVE_INFINITY;
  private seen = 0;
  private readonly ring = new Float64Array(WINDOW);
  private readonly sorted = new Float64Array(WINDOW);
  private filled = 0;
  private next = 0;
  private last = Number.NaN;
  private lastRaw = Number.NaN;

  /** Learns the resolution from a single reading. */
  seeReading(amps: number): void {
    while (this.places < MOST_PLACES && !isWhole(amps * this.tens)) {
      this.places++;
      this.tens *= 10;
    }
    const step = Math.abs(amps - this.lastRaw);
    if (step > 1e-7) {
      if (step < 0.99 * this.smallest) {
        this.smallest = step;
        this.seen = 1;
      } else if (step < 1.01 * this.smallest) this.seen++;
    }
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
    const middle = this.sorted[Math.floor(this.filled * QUANTILE)]!;
    return Math.max(middle / NORMAL_AT_QUANTILE / Math.SQRT2, count, 1e-5);
  }

  /** Whether enough differences have been seen to trust sigma. */
  isFull(): boolean {
    return this.filled >= 8;
  }

  /** Resolution in amps; 0 when there is none to see. */
  quantum(): number {
    const printed = this.places >= MOST_PLACES ? 0 : 1 / this.tens;
    return this.seen < 20 ? Math.min(printed, 0.01) : Math.max(printed, this.smallest);
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

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-6 * Math.max(1, Math.abs(value));
}
