import { retune, type SupplyStage } from './supply-stage.ts';

/** Trips over-voltage and over-current protection. True when the output was switched off. */
export function protect(stage: SupplyStage, t: number, terminalV: number, amps: number): boolean {
  const overV = stage.on && stage.overV.enabled && terminalV > stage.overV.level;
  const { overA } = stage;
  const over =
    stage.on && overA.enabled && amps >= Math.min(overA.level, stage.limitA * stage.limitGain);
  overA.sinceS = over ? Math.min(overA.sinceS, t) : Infinity;
  const overLong = over && t >= overA.sinceS + overA.delayS;
  if (!overV && !overLong) return false;
  if (overV) stage.overV.tripped = true;
  if (overLong) overA.tripped = true;
  retune(stage, t, { on: false });
  return true;
}
