import { type Cause, type CauseTable, checkCauseTable } from '../evidence/cause-table.ts';
import { STARTER_TABLE } from '../evidence/starter-table.ts';

/** The starter table with the shop's causes: same key = the shop's wording and weight, new key = added. Throws `bad-input`. */
export function shopTable(own: readonly Cause[]): CauseTable {
  const byKey = new Map(own.map((cause) => [cause.key, cause]));
  const kept = STARTER_TABLE.causes.map((cause) => byKey.get(cause.key) ?? cause);
  const starter = new Set(STARTER_TABLE.causes.map(({ key }) => key));
  const added = own.filter(({ key }) => !starter.has(key));
  return checkCauseTable({ ...STARTER_TABLE, causes: [...kept, ...added] });
}

/** A cause with how deep it stands. */
export interface CauseLine {
  readonly cause: Cause;
  readonly depth: number;
}

/** Causes as a tree is read: each under its wider cause, in the table's order. */
export function causeLines(causes: readonly Cause[]): readonly CauseLine[] {
  const under = (parent: string | null, depth: number): CauseLine[] =>
    causes
      .filter((cause) => cause.parent === parent)
      .flatMap((cause) => [{ cause, depth }, ...under(cause.key, depth + 1)]);
  return under(null, 0);
}

/** A key for a new cause under `parent`, unlike every key that is there. */
export function newCauseKey(text: string, parent: string | null, causes: readonly Cause[]): string {
  const word =
    text
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-|-$/g, '')
      .slice(0, 60) || 'cause';
  const base = `own:${parent === null ? '' : `${parent.replaceAll(':', '-')}-`}${word}`;
  const taken = new Set(causes.map(({ key }) => key));
  let key = base;
  for (let n = 2; taken.has(key); n++) key = `${base}-${n}`;
  return key;
}
