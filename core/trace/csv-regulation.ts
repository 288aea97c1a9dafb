import type { Regulation } from './sample.ts';

const WORDS: Readonly<Record<string, Regulation>> = {
  cv: 'cv',
  'c.v': 'cv',
  'c.v.': 'cv',
  'const v': 'cv',
  'constant voltage': 'cv',
  cc: 'cc',
  'c.c': 'cc',
  'c.c.': 'cc',
  'const c': 'cc',
  'constant current': 'cc',
  ur: 'unregulated',
  unreg: 'unregulated',
  unregulated: 'unregulated',
  off: 'off',
  'output off': 'off',
};

/**
 * The regulation that a cell tells in words; null for anything else. Numbers tell nothing: the
 * same 1 means constant current on one supply and constant voltage on another.
 */
export function readRegulation(cell: string): Regulation | null {
  const word = cell.toLowerCase().replace(/^["']|["']$/g, '');
  return Object.hasOwn(WORDS, word) ? WORDS[word]! : null;
}
