import { parsePart } from '../parts/parse-part.ts';
import type { ParsedPart } from '../parts/parsed-part.ts';
import { kindOfDesignator, PART_KINDS, type PartKind } from '../parts/part-spec.ts';
import { readPartWord } from '../parts/part-word.ts';

/** The kind that a part's own fields tell: the typed kind when it is one, else its designator's letters. */
export function kindOfPart(part: {
  readonly kind: string;
  readonly designator: string;
}): PartKind | null {
  const typed = part.kind.trim().toLowerCase();
  const named = PART_KINDS.find((kind) => kind === typed);
  const words = typed.split(/\s+/u).flatMap((word) => readPartWord(word)?.kind ?? []);
  return named ?? words[0] ?? kindOfDesignator(part.designator.trim());
}

/** Reads the value of a part as typed, helped by its kind and designator; throws nothing. */
export function readPartValue(part: {
  readonly kind: string;
  readonly designator: string;
  readonly value: string;
}): ParsedPart {
  return parsePart(part.value, kindOfPart(part));
}
