/** Power in watts of one pair of readings; null when either is not known. */
export function wattsOf(volts: number | null, amps: number | null): number | null {
  return volts === null || amps === null ? null : volts * amps;
}

/**
 * Digits after the point that a product of volts and amps really carries: each factor is known
 * to its last digit, so the product is known to `volts x dA + amps x dV` (first-order propagation).
 */
export function wattsDecimals(
  volts: number | null,
  amps: number | null,
  voltsDecimals: number,
  ampsDecimals: number,
): number {
  const resolution =
    Math.abs(volts ?? 1) * 10 ** -ampsDecimals + Math.abs(amps ?? 1) * 10 ** -voltsDecimals;
  return Math.max(0, Math.floor(-Math.log10(resolution) + 0.3));
}
