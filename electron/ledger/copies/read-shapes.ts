import type BetterSqlite from 'better-sqlite3';
import type { TableShape } from '../../../core/copies/table-shape.ts';

interface ColumnInfo {
  readonly name: string;
  readonly type: string;
  readonly pk: number;
}

/**
 * The shape of every table of a database, by name. Left out are SQLite's own tables and search
 * indexes with what they keep: those are made anew from the rows.
 */
export function readShapes(sqlite: BetterSqlite.Database, schema = 'main'): readonly TableShape[] {
  const tables = sqlite
    .prepare<[string], string>(
      "select name from pragma_table_list where schema = ? and type = 'table' and name not like 'sqlite_%' order by name",
    )
    .pluck()
    .all(schema);
  return tables.map((name) => {
    const info = sqlite
      .prepare<[string, string], ColumnInfo>('select name, type, pk from pragma_table_info(?, ?)')
      .all(name, schema);
    const foreign = sqlite
      .prepare<[string, string], { from: string; table: string; to: string | null }>(
        'select "from", "table", "to" from pragma_foreign_key_list(?, ?)',
      )
      .all(name, schema);
    const unique = sqlite
      .prepare<[string, string], string>(
        `select name from pragma_index_list(?, ?) where "unique" = 1 and origin <> 'pk'`,
      )
      .pluck()
      .all(name, schema)
      .map((index) =>
        sqlite
          .prepare<[string, string], string>('select name from pragma_index_info(?, ?)')
          .pluck()
          .all(index, schema),
      );
    return {
      name,
      columns: info.map((column) => ({ name: column.name, type: column.type })),
      key: info
        .filter(({ pk }) => pk > 0)
        .sort((a, b) => a.pk - b.pk)
        .map((column) => column.name),
      foreign: foreign.map(({ from, table, to }) => ({ column: from, table, to: to ?? 'id' })),
      unique,
    };
  });
}
