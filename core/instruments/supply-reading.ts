import type { Regulation } from '../trace/sample.ts';

/** One reading of a supply. `null` = the instrument did not tell. */
export interface SupplyReading {
  readonly volts: number | null;
  readonly amps: number | null;
  readonly regulation: Regulation | null;
  readonly outputOn: boolean | null;
  /** When its request left and its last answer was complete, on the session's clock. */
  readonly sentMs: number;
  readonly gotMs: number;
}

/** Set-points as the instrument tells them. Null = it does not tell. */
export interface Setpoints {
  readonly setV: number | null;
  readonly limitA: number | null;
}
