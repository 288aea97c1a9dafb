import type { MarkId } from '../../core/stages/stage.ts';

/** The words a mark is shown with. */
export const MARK_WORDS: Readonly<Record<MarkId, string>> = {
  inrush: 'Inrush',
  'feed-change': 'Feed change',
  'back-fed': 'Back-fed',
  gap: 'Gap',
  'wake-request': 'Wake request',
  'output-on': 'Output on',
  'output-off': 'Output off',
  'guard-trip': 'Guard trip',
  note: 'Note',
};
