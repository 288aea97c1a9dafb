import type { Template } from './template-step.ts';

/** Where a version came from: the app, the shop's editing, a file, or put away by the shop. */
export type TemplateOrigin = 'built-in' | 'shop' | 'file' | 'away';

/** One version of the checklist for a kind of job. Versions are never changed, only followed. */
export interface TemplateVersion extends Template {
  readonly id: string;
  /** From 1, counted for its kind of job. */
  readonly version: number;
  readonly origin: TemplateOrigin;
  /** What it guards no longer, in words, with the knowledge of who made it. */
  readonly lost: readonly string[];
  /** Initials; '' = nobody said. */
  readonly madeBy: string;
  /** UTC ms. */
  readonly madeAt: number;
}

/** The version that a job is walked with, beside the newest there is. */
export interface JobTemplate {
  /** Null = begun before versions were kept. */
  readonly version: TemplateVersion | null;
  readonly newest: number;
}

export const ORIGIN_WORDS: Readonly<Record<TemplateOrigin, string>> = {
  'built-in': 'as built in',
  shop: "the shop's own",
  file: 'read from a file',
  away: 'put away',
};
