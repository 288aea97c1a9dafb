import { columnNames, type TableShape } from './table-shape.ts';

/**
 * How rows of a table come together when two ledgers are merged.
 * - `local`: stays with its own ledger and crosses never (settings, the schema's own tables).
 * - `row`: by primary key; a row that both have in different words is the newer one's.
 * - `whole`: rows belong to an owner as a set and come or stay together with the newer owner.
 */
export type MergeRule =
  | { readonly kind: 'local' }
  | { readonly kind: 'row'; readonly newer: Newer }
  | { readonly kind: 'whole'; readonly owner: Owner };

/** The owner of a set: a column of the row that names a row of another table. */
export interface Owner {
  readonly column: string;
  readonly table: string;
}

/**
 * What tells which of two unlike rows is newer: a time of its own, the row it belongs to, or nothing:
 * then the ledger that is merged into keeps its own, and says so.
 */
export type Newer =
  | { readonly by: 'time'; readonly column: string }
  | { readonly by: 'owner'; readonly owner: Owner }
  | { readonly by: 'fullness' }
  | { readonly by: 'nothing' };

/** Times of change, the best first. A row without one is as new as what it belongs to. */
const TIMES = ['updated_at', 'changed_at', 'edited_at', 'seen_at', 'said_at'];

/** Tables whose rule does not follow from their shape. */
const OWN: Readonly<Record<string, MergeRule>> = {
  // Where this shop's app left off: its folders, its last number.
  settings: { kind: 'local' },
  runs: { kind: 'row', newer: { by: 'fullness' } },
  // A run's samples come from one side only: chunks of two recordings never mix.
  tracks: { kind: 'whole', owner: { column: 'run_id', table: 'runs' } },
  chunks: { kind: 'whole', owner: { column: 'track_id', table: 'tracks' } },
  pyramids: { kind: 'whole', owner: { column: 'track_id', table: 'tracks' } },
  signatures: { kind: 'whole', owner: { column: 'run_id', table: 'runs' } },
  // Each naming of a run is a row of its own and is never written over.
  classifications: { kind: 'row', newer: { by: 'nothing' } },
  // A board's table of rails is saved whole.
  rails: { kind: 'whole', owner: { column: 'board_id', table: 'boards' } },
};

/**
 * The rule of a table: its own, else what its shape says. A set is told by its key (an owner's column
 * and a place in the set), the newer of two rows by a time of change, else by what the row belongs to.
 */
export function mergeRuleOf(shape: TableShape): MergeRule {
  const own = OWN[shape.name];
  if (own !== undefined) return own;
  // The schema's own tables, and what a search goes through: that is made anew from the rows.
  if (/^(kysely|search)_/.test(shape.name)) return { kind: 'local' };
  const [first, second, ...rest] = shape.key;
  const ownerOf = (column: string | undefined) =>
    shape.foreign.find((foreign) => foreign.column === column);
  const owner = ownerOf(first);
  const isPlace = rest.length === 0 && (second === 'seq' || second === 'position');
  if (owner !== undefined && isPlace) {
    return { kind: 'whole', owner: { column: owner.column, table: owner.table } };
  }
  const names = columnNames(shape);
  const time = TIMES.find((column) => names.includes(column));
  if (time !== undefined) return { kind: 'row', newer: { by: 'time', column: time } };
  const belongs = shape.foreign.find(({ table }) => table !== shape.name);
  if (belongs === undefined) return { kind: 'row', newer: { by: 'nothing' } };
  const { column, table } = belongs;
  return { kind: 'row', newer: { by: 'owner', owner: { column, table } } };
}

/** Columns that each ledger gives itself: the running number of a job, links, words to search by. */
const KEPT: Readonly<Record<string, readonly string[]>> = {
  jobs: ['number', 'comeback_of', 'search_text'],
};

/** Columns of a table that are neither compared nor taken over. */
export function keptColumns(table: string): readonly string[] {
  return KEPT[table] ?? [];
}

/** Tables in an order in which each comes after those that it points at; loops in their own order. */
export function inOrder(shapes: readonly TableShape[]): readonly TableShape[] {
  const placed: TableShape[] = [];
  const done = new Set<string>();
  const place = (shape: TableShape, above: ReadonlySet<string>): void => {
    if (done.has(shape.name) || above.has(shape.name)) return;
    for (const { table } of shape.foreign) {
      const next = shapes.find(({ name }) => name === table);
      if (next !== undefined) place(next, new Set([...above, shape.name]));
    }
    if (done.has(shape.name)) return;
    done.add(shape.name);
    placed.push(shape);
  };
  for (const shape of shapes) place(shape, new Set());
  return placed;
}
