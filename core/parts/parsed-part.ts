import type { PartSpec } from './part-spec.ts';

/** A stretch of the typed text, `[at, end)`. */
export interface Span {
  readonly at: number;
  readonly end: number;
}

/** How one stretch was read: `4.7 kΩ (IEC 60062 letter code)`. */
export interface PartNote extends Span {
  readonly meaning: string;
}

/** Something that cannot be taken as typed. */
export interface PartFault extends Span {
  readonly what: string;
  readonly todo: string;
}

/** Something that may mean two things, or hardly exists. */
export interface PartQuestion extends Span {
  readonly about: 'kind' | 'value' | 'case' | 'combination';
  readonly ask: string;
  /** Each answer with the text to put in the stretch's place; empty when only a look can tell. */
  readonly choices: readonly { readonly say: string; readonly retype: string }[];
  /** Where the rule behind the question comes from. */
  readonly source: string;
}

/** A typed part: what is known, how each word was read, what to ask, what is wrong. */
export interface ParsedPart {
  readonly text: string;
  readonly spec: PartSpec;
  readonly notes: readonly PartNote[];
  /** The usual reading is in `spec` until they are answered; a case that is asked about is null. */
  readonly questions: readonly PartQuestion[];
  readonly faults: readonly PartFault[];
}
