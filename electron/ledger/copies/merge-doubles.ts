import type BetterSqlite from 'better-sqlite3';
import { boardKey } from '../../../core/job/same-thing.ts';

/** Things that a shop enters by hand, and what makes two of them look like one. */
const DOUBLES: readonly {
  readonly table: string;
  readonly like: readonly string[];
  readonly unless: string;
  readonly words: (row: Readonly<Record<string, unknown>>) => string;
}[] = [
  {
    table: 'donor_boards',
    like: ['board_key', 'shelf'],
    unless: '1 = 0',
    words: (row) =>
      `A donor board ${row.board_model} on shelf "${row.shelf}" is entered in both under two ids. Both are kept: if it is one board, take one off the shelf.`,
  },
  {
    table: 'jobs',
    like: ['serial_key'],
    unless: "o.serial_key = '' or abs(o.created_at - m.created_at) > 86400000",
    words: (row) =>
      `A board with serial number ${row.serial_number} was taken in on the same day in both under two ids. Both jobs are kept.`,
  },
  {
    table: 'customers',
    like: ['name'],
    unless: "o.name = ''",
    words: (row) =>
      `The customer ${row.name} is entered in both under two ids. Both are kept: if it is one, put the jobs under one of them.`,
  },
];

/** What both ledgers seem to have entered for themselves, in words. Nothing is joined. */
export function tellDoubles(sqlite: BetterSqlite.Database): string[] {
  return DOUBLES.flatMap(({ table, like, unless, words }) => {
    const has = sqlite.prepare(
      "select 1 from main.sqlite_master where type = 'table' and name = ?",
    );
    if (has.get(table) === undefined) return [];
    const alike = like.map((column) => `m."${column}" = o."${column}"`).join(' and ');
    return sqlite
      .prepare<[], Readonly<Record<string, unknown>>>(
        `select distinct o.* from other."${table}" o join main."${table}" m on ${alike} and m.id <> o.id
         where o.id not in (select id from main."${table}") and m.id not in (select id from other."${table}") and not (${unless})`,
      )
      .all()
      .map(words);
  });
}

/**
 * A board model that both ledgers entered under two ids keeps both tables of rails: the other's gets
 * a name that says where it is from, in the attached copy. Returns what to tell.
 */
export function keepBothBoards(sqlite: BetterSqlite.Database): string[] {
  const clashes = sqlite
    .prepare<[], { id: string; name: string }>(
      'select o.id, o.name from other.boards o join main.boards m on m.name_key = o.name_key and m.id <> o.id',
    )
    .all();
  const here = sqlite.prepare<[string], { name: string; name_key: string }>(
    'select name, name_key from main.boards where id = ?',
  );
  const taken = sqlite.prepare(
    'select 1 from main.boards where name_key = ? union select 1 from other.boards where name_key = ?',
  );
  const rename = sqlite.prepare('update other.boards set name = ?, name_key = ? where id = ?');
  return clashes.flatMap(({ id, name }) => {
    // It came in earlier: it keeps the name that it has here by now.
    const known = here.get(id);
    if (known !== undefined) {
      rename.run(known.name, known.name_key, id);
      return [];
    }
    let other = `${name} (other ledger)`;
    for (let n = 2; taken.get(boardKey(other), boardKey(other)) !== undefined; n += 1) {
      other = `${name} (other ledger ${n})`;
    }
    rename.run(other, boardKey(other), id);
    return [
      `The board ${name} is entered in both under two ids. Both are kept, the other ledger's as "${other}": compare their rails and delete one. Jobs go by the name.`,
    ];
  });
}
