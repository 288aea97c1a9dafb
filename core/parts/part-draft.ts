import type { PartFault, PartNote, PartQuestion, Span } from './parsed-part.ts';
import { type PartKind, type PartSpec, UNKNOWN_PART } from './part-spec.ts';

type Writable<T> = { -readonly [K in keyof T]: T[K] };

/** A part while its words are being read. */
export interface PartDraft {
  readonly spec: Writable<PartSpec>;
  readonly notes: PartNote[];
  readonly questions: PartQuestion[];
  readonly faults: PartFault[];
  /** Which word gave each field. */
  readonly places: Partial<Record<keyof PartSpec, Span>>;
}

export function newDraft(kind: PartKind | null): PartDraft {
  return { spec: { ...UNKNOWN_PART, kind }, notes: [], questions: [], faults: [], places: {} };
}

/** Sets a field from a word and notes how it was read; a second, different word for it is a fault. */
export function setField<K extends keyof PartSpec>(
  draft: PartDraft,
  field: K,
  value: PartSpec[K],
  span: Span,
  meaning: string,
): void {
  const before = draft.places[field];
  if (before !== undefined && JSON.stringify(draft.spec[field]) !== JSON.stringify(value)) {
    draft.faults.push({
      ...place(span),
      what: `${meaning} is a second ${FIELD_WORDS[field]}`,
      todo: `Keep one of the two; the first is at character ${before.at + 1}.`,
    });
    return;
  }
  const spec: Writable<Record<keyof PartSpec, unknown>> = draft.spec;
  spec[field] = value;
  draft.places[field] = place(span);
  draft.notes.push({ ...place(span), meaning });
}

/** Takes the kind that a word implies, unless it contradicts what is known. */
export function implyKind(draft: PartDraft, kind: PartKind, span: Span, why: string): void {
  const known = draft.spec.kind;
  if (known === null) {
    draft.spec.kind = kind;
    draft.places.kind = place(span);
    return;
  }
  if (known === kind || isNarrower(known, kind) || isNarrower(kind, known)) {
    if (isNarrower(kind, known)) draft.spec.kind = kind;
    return;
  }
  draft.faults.push({
    ...place(span),
    what: `${why} belongs to a ${kind}, and this is a ${known}`,
    todo: 'Take one of the two out.',
  });
}

export function place(span: Span): Span {
  return { at: span.at, end: span.end };
}

/** A designator D covers zeners and suppressors, L covers beads. */
function isNarrower(narrow: PartKind, wide: PartKind): boolean {
  if (wide === 'diode') return narrow === 'zener' || narrow === 'suppressor';
  return wide === 'inductor' && narrow === 'bead';
}

const FIELD_WORDS: Readonly<Record<keyof PartSpec, string>> = {
  kind: 'kind',
  variant: 'type of its kind',
  designator: 'designator',
  value: 'value',
  tolerance: 'tolerance',
  ratedV: 'voltage rating',
  ratedA: 'current rating',
  ratedW: 'power rating',
  technology: 'technology',
  dielectric: 'ceramic class',
  esrOhm: 'ESR',
  chipCase: 'case',
  otherCase: 'case',
  marking: 'mark',
};
