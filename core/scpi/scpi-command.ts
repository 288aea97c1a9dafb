import type { ParameterToken } from './program-unit.ts';
import type { ScpiFault } from './scpi-fault.ts';
import type { StatusRegisters } from './status-registers.ts';

/** What a command's code is given: its numeric suffixes, its parameters, the device's status. */
export interface CommandCall {
  readonly suffixes: readonly number[];
  readonly parameters: readonly ParameterToken[];
  readonly status: StatusRegisters;
  /** True when an earlier unit of the same message has already been answered. */
  readonly answerWaiting: boolean;
}

/** What came of it: an answer of a query, nothing, or a fault. */
export type CommandOutcome = string | undefined | ScpiFault;

/** One command of a device. */
export interface ScpiCommand {
  /** Its header as declared: see `headerPattern`. */
  readonly pattern: string;
  /** How many parameters it must and may have; none when left out. */
  readonly takes?: readonly [least: number, most: number];
  /** Highest value of each numeric suffix; 1 for those left out. */
  readonly highestSuffixes?: readonly number[];
  /** Does it. `undefined` from a query = it has nothing to say. */
  readonly run: (call: CommandCall) => CommandOutcome;
}
