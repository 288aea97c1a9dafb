import type { PartSpec } from './part-spec.ts';

/** How a donor part's figures are known. */
export type KnownFrom =
  /** Nobody knows: lifted, unmarked, from somewhere. */
  | 'unknown'
  /** Printed on the part. */
  | 'marking'
  /** The label of new stock, with its data sheet. */
  | 'label'
  /** From the same place on a board of the same model. */
  | 'same-place'
  /** The donor board's own schematic. */
  | 'schematic';

/** A value measured on the part, out of circuit. */
export interface MeasuredValue {
  readonly value: number;
  /** One standard uncertainty in the same unit; 0 when not known. */
  readonly uncertainty: number;
}

/** Share of nominal capacitance left at a DC voltage, from a data sheet, in rising volts. */
export type BiasCurve = readonly { readonly volts: number; readonly share: number }[];

/** What the part does in its place: decides how exact an equal has to be. */
export type PartRole =
  | 'bulk'
  | 'regulator-output'
  | 'decoupling'
  | 'feedback'
  | 'timing'
  | 'sensing'
  | 'other';

/** The place that the part goes to. */
export interface PartPlace {
  /** Volts across it in use; null when not known. */
  readonly railV: number | null;
  readonly role: PartRole;
  /** Whether the schematic calls it critical; null when there is no schematic. */
  readonly critical: boolean | null;
  /** Room above the board in mm; null when not known. */
  readonly roomMm: number | null;
}

export interface DonorPart {
  readonly spec: PartSpec;
  readonly knownFrom: KnownFrom;
  readonly measured: MeasuredValue | null;
  readonly biasCurve: BiasCurve | null;
  readonly heightMm: number | null;
  /** Pin order or polarity as a text to compare; null when not known. */
  readonly pinout: string | null;
}

export interface OriginalPart {
  readonly spec: PartSpec;
  readonly biasCurve: BiasCurve | null;
  readonly pinout: string | null;
  /** Whether firmware ties this chip to its board; null when not known. */
  readonly pairedByFirmware: boolean | null;
}

export type RuleId =
  | 'kind'
  | 'identity'
  | 'value'
  | 'bias'
  | 'rating'
  | 'esr'
  | 'class'
  | 'case'
  | 'pinout'
  | 'pairing'
  | 'critical';

/** One rule's outcome. `not-checked` = a figure is missing; `question` = it may do, a person decides. */
export interface RuleVerdict {
  readonly rule: RuleId;
  readonly verdict: 'pass' | 'fail' | 'not-checked' | 'question';
  /** In words and numbers. */
  readonly reason: string;
  /** True when the part cannot be called an equal while this rule is open. */
  readonly needed: boolean;
  readonly source: string;
}

export interface Equivalence {
  readonly verdict: 'equal' | 'not-equal' | 'not-ruled-out';
  /** One sentence: the verdict with what decided it. */
  readonly summary: string;
  readonly rules: readonly RuleVerdict[];
  /** What nobody looked at, in words. */
  readonly notChecked: readonly string[];
}

export const EQUIVALENCE_SOURCE = 'common practice, no source';
