import { copyFileSync, existsSync, rmSync } from 'node:fs';
import type BetterSqlite from 'better-sqlite3';
import { inOrder, keptColumns, mergeRuleOf } from '../../core/copies/merge-rule.ts';
import { readShapes } from '../../electron/ledger/copies/read-shapes.ts';
import { openBare } from './ledger-schema.ts';

/** Looks into a ledger file that an app holds open: into a copy of it and of what waits beside it. */
export function lookInto<T>(file: string, look: (sqlite: BetterSqlite.Database) => T): T {
  const copy = `${file}.look`;
  for (const end of ['', '-wal']) {
    rmSync(copy + end, { force: true });
    if (existsSync(file + end)) copyFileSync(file + end, copy + end);
  }
  const sqlite = openBare(copy);
  try {
    return look(sqlite);
  } finally {
    sqlite.close();
    for (const end of ['', '-wal', '-shm']) rmSync(copy + end, { force: true });
  }
}

/** Every row of a ledger file that crosses to another ledger, by table, as text; chunks as hex. */
export function ledgerRows(
  file: string,
  o: { withKept?: boolean } = {},
): Readonly<Record<string, readonly string[]>> {
  return lookInto(file, (sqlite) => {
    const shapes = inOrder(readShapes(sqlite)).filter((one) => mergeRuleOf(one).kind !== 'local');
    return Object.fromEntries(
      shapes.map(({ name }) => {
        const rows = sqlite.prepare<[], Record<string, unknown>>(`select * from "${name}"`).all();
        const kept = o.withKept === true ? [] : keptColumns(name);
        const lines = rows.map((row) => {
          const shown = Object.entries(row).filter(([column]) => !kept.includes(column));
          return JSON.stringify(shown, (_key, value: unknown) =>
            value instanceof Uint8Array ? Buffer.from(value).toString('hex') : value,
          );
        });
        return [name, lines.sort()];
      }),
    );
  });
}
