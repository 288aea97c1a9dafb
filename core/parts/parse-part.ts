import { takeFirmWords } from './firm-words.ts';
import type { ParsedPart } from './parsed-part.ts';
import { newDraft } from './part-draft.ts';
import type { PartKind } from './part-spec.ts';
import { partTokens } from './part-token.ts';
import { questionPart } from './question-part.ts';
import { tidyTokens } from './tidy-tokens.ts';
import { takeValueWords } from './value-words.ts';

/**
 * Reads a part typed the trade's way: `10u 25V 20% X5R 1206`, `226`, `EIA-96 01C`, `4R7`,
 * `62u 23m ESR polymer`, with a designator or not. `kind` is what is already known of it (a field
 * of the form, the place on the board). Never throws: what cannot be taken is a fault with its
 * characters, what may mean two things is a question with its answers.
 */
export function parsePart(text: string, kind: PartKind | null = null): ParsedPart {
  const draft = newDraft(kind);
  const tokens = tidyTokens(partTokens(text));
  if (tokens.length === 0) {
    draft.faults.push({
      at: text.length,
      end: text.length,
      what: 'Nothing is typed',
      todo: 'Type what is known, like 10u 25V 20% X5R 1206.',
    });
  }
  const values = takeFirmWords(tokens, draft);
  takeValueWords(values, draft);
  const spec = { ...draft.spec };
  if (draft.faults.length === 0) draft.questions.push(...questionPart(spec, draft.places));
  const byPlace = (a: { at: number }, b: { at: number }) => a.at - b.at;
  return {
    text,
    spec,
    notes: draft.notes.sort(byPlace),
    questions: draft.questions.sort(byPlace),
    faults: draft.faults.sort(byPlace),
  };
}
