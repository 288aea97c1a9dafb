/** Where in a job something was written, as its page is parted. */
export const SEARCH_PLACES = [
  'facts',
  'customer',
  'notes',
  'parts',
  'outcome',
  'readings',
  'runs',
] as const;
export type SearchPlace = (typeof SEARCH_PLACES)[number];

/** One thing written in a job that a search goes through. */
export interface SearchPiece {
  readonly place: SearchPlace;
  /** Id of the reading, part, run or step; a field's own name for facts. */
  readonly refId: string;
  /** What it is called on the page. */
  readonly label: string;
  readonly text: string;
}

/** A number or a verdict of a job that a search can ask for. */
export interface SearchFact {
  readonly kind: 'stage' | 'rail' | 'volts' | 'ohms' | 'diode' | 'amps';
  /** A stage's id, or the words of a rail or place. */
  readonly word: string;
  readonly verdict: string;
  /** Amps of a stage, or the reading in its base unit. */
  readonly amount: number | null;
  /** Volts of a stage. */
  readonly volts: number | null;
  readonly refId: string;
}

/** A stretch of shown text; `isHit` where it answers the search. */
export interface SnippetPart {
  readonly text: string;
  readonly isHit: boolean;
}

/** Why a job was found: where, and the words around. Plain text, never markup. */
export interface SearchWhy {
  readonly place: SearchPlace;
  readonly refId: string;
  readonly label: string;
  readonly parts: readonly SnippetPart[];
}
