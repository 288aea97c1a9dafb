/** The power stage of the pretend supply and what it was told. Volts at its own terminals. */
export interface SupplyStage {
  setV: number;
  limitA: number;
  /** How the limit that it holds differs from the one that was set. */
  limitGain: number;
  on: boolean;
  /** Where the reference was at `fromS`, on its way to `aim()`. */
  fromV: number;
  fromS: number;
  overV: { level: number; enabled: boolean; tripped: boolean };
  overA: { level: number; enabled: boolean; tripped: boolean; delayS: number; sinceS: number };
}

/** How the stage is built: figures of a middling bench supply (common practice, no source). */
export const STAGE_BUILD = {
  maxV: 60,
  maxA: 10,
  outputFarads: 470e-6,
  /** What stays across the terminals, output on or off. */
  terminalOhms: 220_000,
  /** Pulls the terminals down to the reference; not in the measured current. */
  sinkA: 0.03,
  /** Output resistance in constant voltage. */
  sourceOhms: 0.002,
  /** How fast the reference moves. */
  slewVPerS: 5000,
  leadOhms: 0.06,
} as const;

/** A stage as *RST leaves it: output off, 0 V, 1 A, protections wide open. */
export function createSupplyStage(): SupplyStage {
  return {
    setV: 0,
    limitA: 1,
    limitGain: 1,
    on: false,
    fromV: 0,
    fromS: 0,
    overV: { level: 66, enabled: false, tripped: false },
    overA: { level: 11, enabled: false, tripped: false, delayS: 0.02, sinceS: Infinity },
  };
}

function aim(stage: SupplyStage): number {
  return stage.on ? stage.setV : 0;
}

/** The reference at a time: a ramp towards the set volts, or towards 0 when off. */
export function referenceV(stage: SupplyStage, t: number): number {
  const gap = aim(stage) - stage.fromV;
  const moved = STAGE_BUILD.slewVPerS * Math.max(0, t - stage.fromS);
  return Math.abs(gap) <= moved ? aim(stage) : stage.fromV + Math.sign(gap) * moved;
}

/** When the ramp ends. */
export function rampEndS(stage: SupplyStage): number {
  return stage.fromS + Math.abs(aim(stage) - stage.fromV) / STAGE_BUILD.slewVPerS;
}

/** Changes what the stage is told, at a time, so that the ramp goes on from where it is. */
export function retune(stage: SupplyStage, t: number, change: Partial<SupplyStage>): void {
  stage.fromV = referenceV(stage, t);
  stage.fromS = t;
  Object.assign(stage, change);
}

/** What the stage does at its terminals. Slopes in amps a volt. */
export interface StageCurrent {
  /** Current that the regulator gives: the one that the supply measures. */
  amps: number;
  /** Current into the terminals' node, with what is pulled down taken off. */
  netA: number;
  netPerV: number;
  netPerRef: number;
  /** Whether its limit holds it. */
  limited: boolean;
}

/** Above the reference by `SINK_FROM_V` the pull-down starts; it is full `SINK_SPAN_V` higher. */
const SINK_FROM_V = 0.02;
const SINK_SPAN_V = 0.05;

/** Works out the stage at a time and at these volts, into `result`. */
export function regulate(
  stage: SupplyStage,
  t: number,
  terminalV: number,
  result: StageCurrent,
): StageCurrent {
  const siemens = 1 / STAGE_BUILD.sourceOhms;
  const below = referenceV(stage, t) - terminalV;
  const wanted = stage.on ? below * siemens : 0;
  const limitA = stage.limitA * stage.limitGain;
  result.limited = stage.on && wanted >= limitA;
  result.amps = Math.min(limitA, Math.max(0, wanted));
  result.netA = result.amps;
  const regulates = wanted > 0 && !result.limited;
  result.netPerV = regulates ? -siemens : 0;
  result.netPerRef = regulates ? siemens : 0;
  const pull = (-below - SINK_FROM_V) / SINK_SPAN_V;
  if (pull > 0) {
    result.netA -= STAGE_BUILD.sinkA * Math.min(1, pull);
    const slope = pull < 1 ? STAGE_BUILD.sinkA / SINK_SPAN_V : 0;
    result.netPerV -= slope;
    result.netPerRef += slope;
  }
  return result;
}

/** A place to work a stage out into. */
export function createStageCurrent(): StageCurrent {
  return { amps: 0, netA: 0, netPerV: 0, netPerRef: 0, limited: false };
}
