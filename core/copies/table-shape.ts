/** A column that points at another table's row. */
export interface ForeignKey {
  readonly column: string;
  readonly table: string;
  readonly to: string;
}

/** A table of a ledger as its schema states it. */
export interface TableShape {
  readonly name: string;
  readonly columns: readonly { readonly name: string; readonly type: string }[];
  /** Columns of the primary key, in its order. */
  readonly key: readonly string[];
  readonly foreign: readonly ForeignKey[];
  /** Columns that together are unique beside the primary key. */
  readonly unique: readonly (readonly string[])[];
}

/** The table's column names. */
export function columnNames(shape: TableShape): readonly string[] {
  return shape.columns.map(({ name }) => name);
}
