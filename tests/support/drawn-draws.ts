import type { StageId, TrackerSettings } from '../../core/stages/stage.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';

/**
 * Draws written from descriptions, not recorded and not simulated: a list of stretches, each with
 * the stage that a technician would write under it. Shares no code with the pretend bench.
 */
export interface Stretch {
  readonly label: StageId;
  readonly seconds: number;
  /** Amps at `t` seconds into the stretch; `u` runs 0 to 1 over it. */
  readonly amps: (t: number, u: number, dice: Dice) => number;
  /** Volts; the same as before when left out. */
  readonly volts?: number | ((t: number, u: number) => number);
  readonly regulation?: 'cv' | 'cc' | 'off';
  /** Seconds within which something happens that an instrument has to be fast enough to see. */
  readonly finest?: number;
}

/** Seeded random numbers: the same seed draws the same curve. */
export class Dice {
  private state: number;
  private spare: number | null = null;

  constructor(seed: number) {
    this.state = (seed * 2654435761 + 1013904223) >>> 0;
    for (let i = 0; i < 8; i++) this.next();
  }

  /** 0 (included) to 1. */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  pick<T>(of: readonly T[]): T {
    return of[Math.floor(this.next() * of.length)]!;
  }

  normal(): number {
    if (this.spare !== null) {
      const kept = this.spare;
      this.spare = null;
      return kept;
    }
    const r = Math.sqrt(-2 * Math.log(1 - this.next()));
    const a = 2 * Math.PI * this.next();
    this.spare = r * Math.sin(a);
    return r * Math.cos(a);
  }
}

/** How an instrument would log the draw. */
export interface Logging {
  readonly hz: number;
  /** Resolution of the amps in amps; 0 for none. */
  readonly countA: number;
  readonly noiseA: number;
  /** Offset of the ammeter in amps. */
  readonly zeroA: number;
  /** Spread of the sampling interval as a share of it. */
  readonly jitter: number;
  /** Share of samples lost one by one. */
  readonly dropouts: number;
  readonly gaps: readonly { readonly atS: number; readonly s: number }[];
  readonly volts: boolean;
  readonly regulation: boolean;
}

export const PLAIN_LOGGING: Logging = {
  hz: 20,
  countA: 0.001,
  noiseA: 0.0007,
  zeroA: 0.0004,
  jitter: 0.05,
  dropouts: 0,
  gaps: [],
  volts: true,
  regulation: false,
};

/** A draw as columns, with the label of every stretch. */
export interface DrawnDraw {
  readonly columns: TraceColumns;
  readonly labels: readonly {
    readonly stage: StageId;
    readonly startS: number;
    readonly endS: number;
  }[];
  readonly settings: Partial<TrackerSettings>;
}

/** Samples stretches as an instrument would. */
export function logDraw(stretches: readonly Stretch[], logging: Logging, dice: Dice): DrawnDraw {
  const total = stretches.reduce((s, x) => s + x.seconds, 0);
  const ticks: number[] = [];
  const volts: number[] = [];
  const amps: number[] = [];
  const regulation: number[] = [];
  let lastTick = -1;
  let at = 0;
  let begun = 0;
  let heldV = 0;
  const n = Math.floor(total * logging.hz);
  for (let k = 0; k < n; k++) {
    const t = (k + logging.jitter * dice.between(-0.5, 0.5)) / logging.hz;
    while (at + 1 < stretches.length && t >= begun + stretches[at]!.seconds) {
      begun += stretches[at]!.seconds;
      at++;
      const { volts: fed } = stretches[at]!;
      if (typeof fed === 'number') heldV = fed;
    }
    const s = stretches[at]!;
    const inner = Math.max(0, t - begun);
    const u = Math.min(1, inner / s.seconds);
    const trueA = s.amps(inner, u, dice);
    if (typeof s.volts === 'number') heldV = s.volts;
    const trueV = typeof s.volts === 'function' ? s.volts(inner, u) : heldV;
    const lost =
      dice.next() < logging.dropouts || logging.gaps.some((g) => t >= g.atS && t < g.atS + g.s);
    const readA = round(trueA + logging.zeroA + logging.noiseA * dice.normal(), logging.countA);
    const readV = round(trueV + 0.002 * dice.normal(), 0.01);
    const tick = Math.max(lastTick + 1, Math.round(t * 10_000));
    if (lost) continue;
    lastTick = tick;
    ticks.push(tick);
    amps.push(readA);
    volts.push(logging.volts ? readV : Number.NaN);
    const told = s.regulation ?? (s.label === 'off' ? 'off' : 'cv');
    regulation.push(logging.regulation ? { cv: 1, cc: 2, off: 3 }[told] : 0);
  }
  const labels: { stage: StageId; startS: number; endS: number }[] = [];
  let startS = 0;
  for (const s of stretches) {
    const endS = startS + s.seconds;
    const last = labels[labels.length - 1];
    if (last !== undefined && last.stage === s.label) last.endS = endS;
    else labels.push({ stage: s.label, startS, endS });
    startS = endS;
  }
  return {
    columns: {
      ticks: Float64Array.from(ticks),
      volts: Float64Array.from(volts),
      amps: Float64Array.from(amps),
      regulation: Uint8Array.from(regulation),
    },
    labels: onSamples(labels, ticks),
    settings: {},
  };
}

/** Labels moved to the first sample that shows them; those that no sample shows are left out. */
export function onSamples(
  labels: readonly { stage: StageId; startS: number; endS: number }[],
  ticks: readonly number[],
) {
  const out: { stage: StageId; startS: number; endS: number }[] = [];
  let k = 0;
  for (const label of labels) {
    while (k < ticks.length && ticks[k]! < label.startS * 10_000 - 1) k++;
    const startS = (ticks[k] ?? Number.POSITIVE_INFINITY) / 10_000;
    const last = out[out.length - 1];
    if (last !== undefined) last.endS = startS;
    if (last !== undefined && last.endS <= last.startS) out.pop();
    if (startS < label.endS) out.push({ stage: label.stage, startS, endS: label.endS });
  }
  const last = out[out.length - 1];
  if (last !== undefined) last.endS = (ticks[ticks.length - 1] ?? 0) / 10_000;
  return out.filter((l) => l.endS > l.startS);
}

function round(value: number, count: number): number {
  return count > 0 ? Math.round(value / count) * count : value;
}

/** A flat draw. */
export const flat = (a: number) => () => a;

/** A straight slope. */
export const ramp = (from: number, to: number) => (_t: number, u: number) => from + (to - from) * u;

/** An exponential from one level towards another. */
export const settle = (from: number, to: number, tauS: number) => (t: number) =>
  to + (from - to) * Math.exp(-t / tauS);

/** A draw that moves with work: slow wander, bursts and hash, as shares of the level. */
export function busy(a: number, share: number) {
  let wander = 0;
  let burst = 0;
  let lastT = 0;
  return (t: number, _u: number, dice: Dice) => {
    const dt = Math.min(0.2, Math.max(0, t - lastT));
    lastT = t;
    wander +=
      (-wander * dt) / 0.5 + Math.sqrt(Math.max(1e-6, dt) / 0.25) * dice.normal() * share * 0.5;
    if (dice.next() < dt * 0.8) burst = dice.between(0.5, 2.5) * share;
    burst *= Math.exp(-dt / 0.15);
    return Math.max(0, a * (1 + wander + burst + 0.3 * share * dice.normal()));
  };
}

/** A square load on top of a level. */
export const square = (base: number, top: number, periodS: number, duty: number) => (t: number) =>
  t % periodS < duty * periodS ? top : base;
