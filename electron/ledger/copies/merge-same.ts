import type BetterSqlite from 'better-sqlite3';
import type { TableShape } from '../../../core/copies/table-shape.ts';
import type { Field } from './row-line.ts';

/** Tables whose doubles are looked at by rules of their own. */
const LOOKED_AT = ['jobs', 'boards', 'checklist_templates'];

/**
 * Rows that both ledgers made for themselves and that can be there only once take, in the attached
 * copy, the id that they have here: what belongs to theirs then belongs to ours. Returns what to tell.
 */
export function joinUnique(sqlite: BetterSqlite.Database, shapes: readonly TableShape[]): string[] {
  return shapes.flatMap((shape) => {
    const [id] = shape.key;
    if (id === undefined || shape.key.length > 1 || LOOKED_AT.includes(shape.name)) return [];
    const told = shape.unique.flatMap((columns) => {
      const alike = columns.map((one) => `m."${one}" = o."${one}"`).join(' and ');
      const pairs = sqlite
        .prepare<[], { ours: Field; theirs: Field }>(
          `select m."${id}" as ours, o."${id}" as theirs from other."${shape.name}" o join main."${shape.name}" m on ${alike}
           where m."${id}" <> o."${id}" and o."${id}" not in (select "${id}" from main."${shape.name}")
           and m."${id}" not in (select "${id}" from other."${shape.name}")`,
        )
        .all();
      for (const pair of pairs) becomes(sqlite, shapes, shape, pair.theirs, pair.ours);
      return pairs.map(() => columns.join(' and '));
    });
    if (told.length === 0) return [];
    return [
      `${told.length} ${told.length === 1 ? 'row' : 'rows'} of ${shape.name} with the same ${[...new Set(told)].join(', or ')} are in both under two ids: there can be one, and this ledger's stands for both.`,
    ];
  });
}

/** A row of the attached copy gets another id, and what points at it follows. */
function becomes(
  sqlite: BetterSqlite.Database,
  shapes: readonly TableShape[],
  shape: TableShape,
  from: Field,
  to: Field,
): void {
  const id = shape.key[0] ?? 'id';
  for (const child of shapes) {
    for (const { table, column } of child.foreign) {
      if (table !== shape.name) continue;
      sqlite
        .prepare(`update other."${child.name}" set "${column}" = ? where "${column}" = ?`)
        .run(to, from);
    }
  }
  sqlite.prepare(`update other."${shape.name}" set "${id}" = ? where "${id}" = ?`).run(to, from);
}

interface Clash {
  readonly theirs: string;
  readonly ours: string;
  readonly key: string;
  readonly title: string;
  readonly version: number;
  readonly isSame: number;
}

/**
 * A checklist that was edited on both benches has a version of each under one number. Theirs comes in
 * numbered below all others: jobs that began with it go on with it, new jobs take this ledger's.
 */
export function keepBothTemplates(
  sqlite: BetterSqlite.Database,
  shapes: readonly TableShape[],
): string[] {
  const shape = shapes.find(({ name }) => name === 'checklist_templates');
  if (shape === undefined) return [];
  const known = sqlite.prepare<[string], number>(
    'select version from main.checklist_templates where id = ?',
  );
  const clashes = sqlite
    .prepare<[], Clash>(
      `select o.id as theirs, m.id as ours, o.key, o.title, o.version,
       (o.title = m.title and o.steps_json = m.steps_json) as isSame
       from other.checklist_templates o join main.checklist_templates m
       on m.key = o.key and m.version = o.version and m.id <> o.id`,
    )
    .all();
  const lowest = sqlite
    .prepare<[string, string], number>(
      'select min(version) from (select version from main.checklist_templates where key = ? union all select version from other.checklist_templates where key = ?)',
    )
    .pluck();
  const number = sqlite.prepare('update other.checklist_templates set version = ? where id = ?');
  return clashes.flatMap(({ theirs, ours, key, title, version, isSame }) => {
    const here = known.pluck().get(theirs);
    if (here !== undefined) {
      // It came in earlier and has its number here.
      number.run(here, theirs);
      return [];
    }
    if (isSame === 1) {
      becomes(sqlite, shapes, shape, theirs, ours);
      return [];
    }
    number.run(Math.min(0, lowest.get(key, key) ?? 0) - 1, theirs);
    return [
      `The checklist ${title} was changed in both after the version before ${version}: jobs of the other ledger go on with theirs, new jobs take this ledger's.`,
    ];
  });
}
