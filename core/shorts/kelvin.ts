/** What two wires add to a reading, as a share of what is measured: 0.2 ohm on 2 ohm is 0.1. */
export function twoWireErrorShare(leadOhm: number, partOhm: number): number {
  return leadOhm / partOhm;
}

/** Ohms by four wires: volts sensed at the part over the current through it, whatever the leads. */
export function fourWireOhm(sensedV: number, amps: number): number {
  return sensedV / amps;
}

/** Where the power goes while current is injected. */
export interface PowerSplit {
  /** Ohms of everything beyond the leads: tracks and the short. */
  readonly boardOhm: number;
  readonly boardW: number;
  readonly leadsW: number;
  /** Share of the supply's power that reaches the board. */
  readonly boardShare: number;
}

/**
 * Splits the supply's power between leads and board by I squared R. `boardV` is the volts sensed at
 * the board; null takes the leads off the supply's volts. Null when no current flows.
 */
export function splitPower(
  supplyV: number,
  amps: number,
  leadOhm: number,
  boardV: number | null,
): PowerSplit | null {
  if (!(amps > 0)) return null;
  const volts = Math.max(0, boardV ?? supplyV - amps * leadOhm);
  const boardW = volts * amps;
  const leadsW = boardV === null ? amps ** 2 * leadOhm : Math.max(0, supplyV - boardV) * amps;
  const total = boardW + leadsW;
  return {
    boardOhm: volts / amps,
    boardW,
    leadsW,
    boardShare: total === 0 ? 0 : boardW / total,
  };
}
