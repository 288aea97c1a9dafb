import { TICKS_PER_SECOND } from './sample.ts';

/**
 * Area under `y` against `x` by the trapezoid rule. Spacing may be irregular; `x` running backwards
 * gives a negative area. Fewer than two points give 0. (Trapezoid rule: any handbook of numerical
 * methods.)
 */
export function trapezoid(y: ArrayLike<number>, x: ArrayLike<number>): number {
  let area = 0;
  for (let i = 1; i < Math.min(y.length, x.length); i++) {
    area += ((y[i]! + y[i - 1]!) / 2) * (x[i]! - x[i - 1]!);
  }
  return area;
}

/** Adds numbers of unlike size without losing the small ones (Neumaier's compensated sum). */
export class CompensatedSum {
  private total = 0;
  private lost = 0;

  add(value: number): void {
    const next = this.total + value;
    this.lost +=
      Math.abs(this.total) >= Math.abs(value)
        ? this.total - next + value
        : value - next + this.total;
    this.total = next;
  }

  value(): number {
    return this.total + this.lost;
  }
}

/**
 * Area, mean and RMS of a quantity over irregular times, sample by sample, by the trapezoid rule.
 * Time that nothing was read in (a gap, a missing reading) counts for nothing: neither area nor
 * seconds.
 */
export class TimeIntegral {
  private readonly area = new CompensatedSum();
  private readonly squares = new CompensatedSum();
  private readonly covered = new CompensatedSum();
  private lastS = Number.NaN;
  private last = Number.NaN;

  /** Takes a reading at `atS` seconds; `bridge` false leaves out the stretch since the last one. */
  push(atS: number, value: number, bridge = true): void {
    if (Number.isNaN(value)) {
      this.break();
      return;
    }
    if (bridge && !Number.isNaN(this.last)) {
      const dt = atS - this.lastS;
      if (dt > 0) {
        this.area.add(((value + this.last) / 2) * dt);
        this.squares.add(((value * value + this.last * this.last) / 2) * dt);
        this.covered.add(dt);
      }
    }
    this.lastS = atS;
    this.last = value;
  }

  /** Forgets the last reading: the next one starts after a gap. */
  break(): void {
    this.last = Number.NaN;
    this.lastS = Number.NaN;
  }

  /** Quantity times seconds; null before two readings have been joined. */
  total(): number | null {
    return this.covered.value() > 0 ? this.area.value() : null;
  }

  /** Seconds that the area covers. */
  seconds(): number {
    return this.covered.value();
  }

  /** Mean over the covered seconds; null before two readings have been joined. */
  mean(): number | null {
    const s = this.covered.value();
    return s > 0 ? this.area.value() / s : null;
  }

  /** Root of the mean square over the covered seconds; null before two readings have been joined. */
  rms(): number | null {
    const s = this.covered.value();
    return s > 0 ? Math.sqrt(this.squares.value() / s) : null;
  }
}

/** What a stretch of a trace took: charge, energy, and the mean and RMS of its draw. */
export interface TraceIntegrals {
  readonly chargeAh: number | null;
  readonly energyWh: number | null;
  readonly meanA: number | null;
  readonly rmsA: number | null;
  /** Seconds that were measured; gaps are left out. */
  readonly measuredS: number;
}

/**
 * Charge in Ah, energy in Wh, mean and RMS amps of columns of samples (ticks of 0.1 ms, `NaN` for a
 * reading that was not taken). Two samples further apart than `gapS` seconds are not joined, and a
 * missing reading is not bridged. Energy is null when no two joined samples had volts.
 */
export function integrateTrace(
  columns: { ticks: Float64Array; volts: Float64Array; amps: Float64Array },
  gapS: number,
): TraceIntegrals {
  const amps = new TimeIntegral();
  const watts = new TimeIntegral();
  for (let i = 0; i < columns.ticks.length; i++) {
    const atS = columns.ticks[i]! / TICKS_PER_SECOND;
    const joined = i > 0 && atS - columns.ticks[i - 1]! / TICKS_PER_SECOND <= gapS;
    amps.push(atS, columns.amps[i]!, joined);
    watts.push(atS, columns.amps[i]! * columns.volts[i]!, joined);
  }
  const charge = amps.total();
  const energy = watts.total();
  return {
    chargeAh: charge === null ? null : charge / 3600,
    energyWh: energy === null ? null : energy / 3600,
    meanA: amps.mean(),
    rmsA: amps.rms(),
    measuredS: amps.seconds(),
  };
}
