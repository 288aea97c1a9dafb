import type { JobState } from '../job/job.ts';
import type { WaitingFor } from '../job/waiting-for.ts';
import type { StageId } from '../stages/stage.ts';

/** From where to where in the typed search a term stands. */
export interface Typed {
  readonly from: number;
  readonly to: number;
}

/** Bounds of an amount in base units; null = none on that side. `isOpen` leaves the bounds out. */
export interface AmountRange {
  readonly low: number | null;
  readonly high: number | null;
  readonly isOpen: boolean;
}

/** Units that a search can ask amounts in. */
export type SearchUnit = 'A' | 'V' | 'Ω';

/** What a rail was judged to be, in the words that a search takes. */
export const SEARCH_VERDICTS = [
  'present',
  'low',
  'high',
  'missing',
  'back-fed',
  'shorted',
  'open',
] as const;
export type SearchVerdict = (typeof SEARCH_VERDICTS)[number];

/** Words that must occur somewhere; of a phrase side by side. The last is a beginning unless quoted. */
export interface TextTerm extends Typed {
  readonly kind: 'text';
  readonly words: readonly string[];
  readonly isPhrase: boolean;
}

/** One thing that a job must show. */
export type SearchTerm =
  | TextTerm
  | (Typed & {
      readonly kind: 'stage';
      readonly stage: StageId;
      readonly amps: AmountRange | null;
      readonly volts: AmountRange | null;
      /** A stage without numbers may also have been written in words. */
      readonly orWords: readonly string[];
    })
  | (Typed & { readonly kind: 'amount'; readonly unit: SearchUnit; readonly range: AmountRange })
  | (Typed & {
      readonly kind: 'rail';
      /** Beginnings of words of the rail's name; none = any rail. */
      readonly name: readonly string[];
      readonly verdict: SearchVerdict | null;
      readonly range: { readonly unit: 'V' | 'Ω'; readonly range: AmountRange } | null;
    })
  | (Typed & { readonly kind: 'liquid'; readonly is: 'yes' | 'no' })
  /** Taken in on these days, both included: `YYYY-MM-DD`; null = no end on that side. */
  | (Typed & {
      readonly kind: 'days';
      readonly first: string | null;
      readonly last: string | null;
    })
  | (Typed & { readonly kind: 'number'; readonly number: number })
  | (Typed & { readonly kind: 'tag'; readonly code: string })
  | (Typed & { readonly kind: 'state'; readonly state: JobState })
  | (Typed & { readonly kind: 'waiting'; readonly waitingFor: WaitingFor })
  | (Typed & { readonly kind: 'comeback' });

/** A search as it was understood, or what is wrong with it and at which character. */
export type ParsedSearch =
  | { readonly ok: true; readonly terms: readonly SearchTerm[] }
  | { readonly ok: false; readonly at: number; readonly what: string; readonly todo: string };
