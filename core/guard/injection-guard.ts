import type { GuardSettings } from './guard-settings.ts';

/** Room for what a supply's own figures are off by (common practice, no source). */
const VOLTS_ROOM = 0.02;
const AMPS_ROOM = 0.05;
const ROOM_DIGITS = 3;
/** A limit that was just lowered takes some readings to be seen. */
const STEP_HOLD_S = 0.5;

/**
 * The limits while current is put into a board: above the ceiling of volts or amps the output goes
 * off at the first reading, above the step's own limit within half a second. Nothing of the job's
 * own limits counts meanwhile: those are for a board that wakes. The output goes off when the app
 * dies, whatever was chosen for other runs.
 */
export function injectionGuard(o: {
  readonly ceilingV: number;
  readonly mostA: number;
  readonly stepA: number;
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
}): GuardSettings {
  const volts = (limit: number) =>
    limit + Math.max(VOLTS_ROOM * limit, ROOM_DIGITS * 10 ** -o.voltsDecimals);
  const amps = (limit: number) =>
    limit + Math.max(AMPS_ROOM * limit, ROOM_DIGITS * 10 ** -o.ampsDecimals);
  return {
    policy: 'off',
    readings: [
      { on: 'volts', aboveV: volts(o.ceilingV), holdS: 0, action: 'off' },
      { on: 'amps', aboveA: amps(o.mostA), holdS: 0, action: 'off' },
      { on: 'amps', aboveA: amps(o.stepA), holdS: STEP_HOLD_S, action: 'off' },
    ],
    stages: [],
    own: { overV: null, overA: null },
  };
}
