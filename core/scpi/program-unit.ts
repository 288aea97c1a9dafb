import type { ScpiFault } from './scpi-fault.ts';

/** One parameter of a program message unit, as written. */
export type ParameterToken =
  | { readonly kind: 'number'; readonly value: number; readonly suffix: string }
  | { readonly kind: 'radix'; readonly value: number }
  | { readonly kind: 'word'; readonly text: string }
  | { readonly kind: 'string'; readonly text: string }
  | { readonly kind: 'block'; readonly text: string }
  | { readonly kind: 'expression'; readonly text: string };

/**
 * One unit of a program message: a header with its parameters. `header` keeps its leading
 * colon or star and has no question mark. A unit that cannot be read carries its fault.
 */
export interface ProgramUnit {
  readonly header: string;
  readonly isQuery: boolean;
  readonly parameters: readonly ParameterToken[];
  readonly fault: ScpiFault | null;
  /** The unit as it was sent, without blanks at its ends. */
  readonly text: string;
}
