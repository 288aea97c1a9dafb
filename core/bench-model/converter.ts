import type { ConverterPlan } from './board-plan.ts';

/** A converter at work: what it is doing, and the currents last worked out. */
export interface Converter {
  readonly plan: ConverterPlan;
  readonly from: number;
  readonly to: number;
  enabled: boolean;
  /** Neither its enable's fault nor its own keeps it from starting. */
  readonly canEnable: boolean;
  readonly alive: boolean;
  /** Idle, waiting to ramp or to retry until `untilS`, or ramping since `sinceS`. */
  phase: 'idle' | 'waiting' | 'on';
  untilS: number;
  sinceS: number;
  limitedSinceS: number;
  // Currents and their slopes at the last point worked out: kept here so that no step allocates.
  outA: number;
  inA: number;
  outPerIn: number;
  outPerOut: number;
  inPerIn: number;
  inPerOut: number;
  outPerRef: number;
  inPerRef: number;
  limited: boolean;
}

/** A converter that is idle. */
export function createConverter(
  plan: ConverterPlan,
  from: number,
  to: number,
  sound: { canEnable: boolean; alive: boolean },
): Converter {
  return {
    plan,
    from,
    to,
    ...sound,
    enabled: false,
    phase: 'idle',
    untilS: Infinity,
    sinceS: 0,
    limitedSinceS: Infinity,
    outA: 0,
    inA: 0,
    outPerIn: 0,
    outPerOut: 0,
    inPerIn: 0,
    inPerOut: 0,
    outPerRef: 0,
    inPerRef: 0,
    limited: false,
  };
}

/** Volts that it is aiming at, `t` seconds into the model's time. */
export function aimV(converter: Converter, t: number): number {
  const { setV, softStartS } = converter.plan;
  const share = (t - converter.sinceS) / softStartS;
  return setV * Math.min(1, Math.max(0, share));
}

/** How fast its aim rises, in volts a second. */
export function aimRate(converter: Converter, t: number): number {
  const { setV, softStartS } = converter.plan;
  return t < converter.sinceS + softStartS ? setV / softStartS : 0;
}

/** The current limit at an output voltage, and its slope in amps a volt. */
export function limitAt(plan: ConverterPlan, outV: number): { limitA: number; slope: number } {
  if (plan.lowLimitA === undefined) return { limitA: plan.limitA, slope: 0 };
  const from = 0.5 * plan.setV;
  const span = 0.2 * plan.setV;
  if (outV <= from) return { limitA: plan.lowLimitA, slope: 0 };
  if (outV >= from + span) return { limitA: plan.limitA, slope: 0 };
  const slope = (plan.limitA - plan.lowLimitA) / span;
  return { limitA: plan.lowLimitA + slope * (outV - from), slope };
}

/** Share of the input that a buck's duty cycle lets through. */
const HIGHEST_DUTY = 0.96;

/**
 * Works out the currents at these volts and leaves them with their slopes on the converter:
 * a regulated source behind 1 % load regulation, held to its limit; the input side carries the
 * same power (buck) or the same current (linear, switch) and the idle power.
 */
export function workOut(converter: Converter, t: number, inV: number, outV: number): void {
  const { plan } = converter;
  converter.limited = false;
  if (converter.phase !== 'on' || inV < 0.05) {
    converter.outA = converter.inA = converter.outPerIn = converter.outPerOut = 0;
    converter.inPerIn = converter.inPerOut = converter.outPerRef = converter.inPerRef = 0;
    return;
  }
  const siemens = plan.limitA / (0.01 * plan.setV);
  const duty = plan.kind === 'buck' ? HIGHEST_DUTY : 1;
  const aim = aimV(converter, t);
  const fromInput = duty * inV < aim;
  const wanted = ((fromInput ? duty * inV : aim) - outV) * siemens;
  const { limitA, slope } = limitAt(plan, outV);
  converter.outPerIn = converter.outPerRef = 0;
  if (wanted <= 0) {
    converter.outA = converter.outPerOut = 0;
  } else if (wanted >= limitA) {
    converter.outA = limitA;
    converter.outPerOut = slope;
    converter.limited = true;
  } else {
    converter.outA = wanted;
    converter.outPerOut = -siemens;
    if (fromInput) converter.outPerIn = duty * siemens;
    else converter.outPerRef = siemens;
  }
  inputSide(converter, inV, outV);
}

function inputSide(converter: Converter, inV: number, outV: number): void {
  const { plan, outA, outPerIn, outPerOut, outPerRef } = converter;
  const passes = plan.kind === 'buck' ? 0 : 1;
  const shareOut = (1 - passes) / plan.efficiency;
  const watts = plan.idleW + shareOut * outV * outA + plan.lossOhms * outA * outA;
  const wattsPerA = shareOut * outV + 2 * plan.lossOhms * outA;
  converter.inA = passes * outA + watts / inV;
  converter.inPerIn = passes * outPerIn + (wattsPerA * outPerIn) / inV - watts / (inV * inV);
  converter.inPerOut = passes * outPerOut + (wattsPerA * outPerOut + shareOut * outA) / inV;
  converter.inPerRef = passes * outPerRef + (wattsPerA * outPerRef) / inV;
}
