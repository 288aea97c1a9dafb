import type { Regulation } from '../trace/sample.ts';

/** Ticks of one bin: 20 ms. Faster readings are joined, slower ones stand alone. */
export const BIN_TICKS = 200;

/** The readings of 20 ms as one: what change detection works on. */
export interface Bin {
  /** Tick of the first and of the last reading. */
  readonly tick: number;
  readonly lastTick: number;
  readonly samples: number;
  /** Mean of the middle half of the amps: a spike of a millisecond does not move it. */
  readonly amps: number;
  readonly ampsMin: number;
  readonly ampsMax: number;
  readonly ampsSum: number;
  /** Squared deviations of the readings from their mean. */
  readonly withinSquares: number;
  /** Mean volts; NaN when none were read. */
  readonly volts: number;
  readonly regulation: Regulation | null;
  readonly outputOn: boolean | null;
  /** True when readings are missing just before this bin. */
  readonly afterGap: boolean;
}

/** Joins readings into bins on a fixed grid of ticks, so that chunks and rates change nothing. */
export class Binner {
  private slot = Number.NaN;
  private readonly sorted = new Float64Array(64);
  private count = 0;
  private samples = 0;
  private sum = 0;
  private mean = 0;
  private within = 0;
  private voltsSum = 0;
  private voltsCount = 0;
  private tick = 0;
  private lastTick = 0;
  private regulation: Regulation | null = null;
  private outputOn: boolean | null = null;
  private afterGap = false;

  /** Takes a reading with amps; returns the bin that it closed, or null. */
  push(
    tick: number,
    amps: number,
    volts: number,
    regulation: Regulation | null,
    outputOn: boolean | null,
    afterGap: boolean,
  ): Bin | null {
    const slot = Math.floor(tick / BIN_TICKS);
    // What the supply says of its regulation is never averaged: a change of it starts a new bin.
    const same =
      slot === this.slot &&
      !afterGap &&
      regulation === this.regulation &&
      outputOn === this.outputOn;
    let closed: Bin | null = null;
    if (!same) {
      closed = this.flush();
      this.slot = slot;
      this.tick = tick;
      this.regulation = regulation;
      this.outputOn = outputOn;
      this.afterGap = afterGap;
    }
    this.lastTick = tick;
    this.samples++;
    this.sum += amps;
    const off = amps - this.mean;
    this.mean += off / this.samples;
    this.within += off * (amps - this.mean);
    if (!Number.isNaN(volts)) {
      this.voltsSum += volts;
      this.voltsCount++;
    }
    if (this.count < this.sorted.length) {
      let i = this.count++;
      while (i > 0 && this.sorted[i - 1]! > amps) {
        this.sorted[i] = this.sorted[i - 1]!;
        i--;
      }
      this.sorted[i] = amps;
    } else {
      if (amps < this.sorted[0]!) this.sorted[0] = amps;
      if (amps > this.sorted[this.count - 1]!) this.sorted[this.count - 1] = amps;
    }
    return closed;
  }

  /** The open bin as it stands, without closing it; null when empty. */
  peek(): Bin | null {
    if (this.count === 0) return null;
    return {
      tick: this.tick,
      lastTick: this.lastTick,
      samples: this.samples,
      amps: this.middle(),
      ampsMin: this.sorted[0]!,
      ampsMax: this.sorted[this.count - 1]!,
      ampsSum: this.sum,
      withinSquares: this.within,
      volts: this.voltsCount > 0 ? this.voltsSum / this.voltsCount : Number.NaN,
      regulation: this.regulation,
      outputOn: this.outputOn,
      afterGap: this.afterGap,
    };
  }

  private middle(): number {
    const n = this.count;
    if (n === 1) return this.sorted[0]!;
    const cut = n < 4 ? (n - 1) >> 1 : n >> 2;
    let sum = 0;
    for (let i = cut; i < n - cut; i++) sum += this.sorted[i]!;
    return sum / (n - 2 * cut);
  }

  private flush(): Bin | null {
    const bin = this.peek();
    this.count = 0;
    this.samples = 0;
    this.sum = 0;
    this.mean = 0;
    this.within = 0;
    this.voltsSum = 0;
    this.voltsCount = 0;
    return bin;
  }
}
