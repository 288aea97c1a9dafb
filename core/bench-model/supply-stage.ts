/** The power stage of the pretend supply and what it was told. Volts at its own terminals. */
export interface SupplyStage {
  setV: number;
  limitA: number;
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
  /** Bleeder across the output: not in the measured current. */
  bleedOhms: 1000,
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

/** Current that the regulator gives at these volts, its slopes, and whether its limit holds it. */
export function regulate(
  stage: SupplyStage,
  t: number,
  terminalV: number,
): { amps: number; perV: number; perRef: number; limited: boolean } {
  if (!stage.on) return { amps: 0, perV: 0, perRef: 0, limited: false };
  const siemens = 1 / STAGE_BUILD.sourceOhms;
  const wanted = (referenceV(stage, t) - terminalV) * siemens;
  if (wanted >= stage.limitA) return { amps: stage.limitA, perV: 0, perRef: 0, limited: true };
  if (wanted <= 0) return { amps: 0, perV: 0, perRef: 0, limited: false };
  return { amps: wanted, perV: -siemens, perRef: siemens, limited: false };
}
