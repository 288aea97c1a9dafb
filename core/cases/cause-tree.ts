import { WakelineError } from '../errors.ts';
import { type Cause, type CauseTable, checkCauseTable } from '../evidence/cause-table.ts';
import { STARTER_TABLE } from '../evidence/starter-table.ts';

/** The shop's own odds of a question's outcomes under one cause. */
export interface ShopOdds {
  readonly question: string;
  readonly cause: string;
  readonly odds: Readonly<Record<string, number>>;
}

/**
 * The starter table with the shop's causes and odds: same key = the shop's wording and weight, new key
 * = added; a row of odds of the shop's stands instead of the starter's. Throws `bad-input`.
 */
export function shopTable(own: readonly Cause[], ownOdds: readonly ShopOdds[] = []): CauseTable {
  const byKey = new Map(own.map((cause) => [cause.key, cause]));
  const kept = STARTER_TABLE.causes.map((cause) => byKey.get(cause.key) ?? cause);
  const starter = new Set(STARTER_TABLE.causes.map(({ key }) => key));
  const added = own.filter(({ key }) => !starter.has(key));
  const questions = STARTER_TABLE.questions.map((question) => {
    const rows = ownOdds.filter((row) => row.question === question.key);
    const changed = Object.fromEntries(rows.map((row) => [row.cause, row.odds]));
    return rows.length === 0 ? question : { ...question, odds: { ...question.odds, ...changed } };
  });
  const rows = ownOdds.length;
  const source =
    rows === 0
      ? STARTER_TABLE.source
      : `${STARTER_TABLE.source}; ${rows} ${rows === 1 ? 'row' : 'rows'} of it as this shop put ${rows === 1 ? 'it' : 'them'}`;
  return checkCauseTable({ source, causes: [...kept, ...added], questions });
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

/**
 * Refuses to retire a cause that cannot be: a heading over causes in use, whose place they would lose.
 * @throws WakelineError `bad-input` naming what stands under it.
 */
export function checkRetire(key: string, causes: readonly Cause[]): void {
  const under = causes.filter(({ parent, isRetired }) => parent === key && !isRetired);
  const [first] = under;
  if (first === undefined) return;
  throw new WakelineError({
    code: 'bad-input',
    what: `${under.length} causes in use stand under it, ${first.text} among them`,
    where: `causes, ${key}`,
    todo: 'Retire those first, or put them under another cause. Nothing was changed.',
  });
}
