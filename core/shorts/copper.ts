/** Conductivity of annealed copper at 20 °C: 58 MS/m by definition (IACS, seen second-hand). */
export const COPPER_CONDUCTIVITY_S_M = 58e6;
/** Resistivity of annealed copper at 20 °C, ohm metres. */
export const COPPER_RESISTIVITY_OHM_M = 1 / COPPER_CONDUCTIVITY_S_M;
/** Change of copper's resistance with temperature at 20 °C, per kelvin (handbook table, seen second-hand). */
export const COPPER_PER_KELVIN = 0.00393;

/** Resistance in ohms at `temperatureC` of copper that has `ohmAt20` at 20 °C. */
export function copperAt(ohmAt20: number, temperatureC: number): number {
  return ohmAt20 * (1 + COPPER_PER_KELVIN * (temperatureC - 20));
}

/** Resistance in ohms at 20 °C of a board trace, all sizes in millimetres. */
export function traceOhm(
  { lengthMm, widthMm, thicknessMm }: { lengthMm: number; widthMm: number; thicknessMm: number },
  resistivityOhmM: number = COPPER_RESISTIVITY_OHM_M,
): number {
  return (resistivityOhmM * lengthMm * 1e3) / (widthMm * thicknessMm);
}

/** Thickness in millimetres of copper sold by weight: 35 µm an ounce (nominal, seen second-hand). */
export function thicknessOfOunces(ounces: number): number {
  return 0.035 * ounces;
}

/** Diameter in millimetres of a bare wire by its AWG number (ASTM B258, from memory). */
export function wireDiameterMm(awg: number): number {
  return 0.127 * 92 ** ((36 - awg) / 39);
}

/** Resistance in ohms at 20 °C of a copper wire by its AWG number and length in metres. */
export function wireOhm(awg: number, lengthM: number): number {
  const radiusM = wireDiameterMm(awg) / 2000;
  return (COPPER_RESISTIVITY_OHM_M * lengthM) / (Math.PI * radiusM ** 2);
}

/** Resistance of resistors side by side, ohms; 0 when any of them is 0. */
export function parallelOhm(ohms: readonly number[]): number {
  return ohms.includes(0) ? 0 : 1 / ohms.reduce((sum, ohm) => sum + 1 / ohm, 0);
}
