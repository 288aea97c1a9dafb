import type BetterSqlite from 'better-sqlite3';
import { mergeRuleOf } from '../../../core/copies/merge-rule.ts';
import { columnNames, type TableShape } from '../../../core/copies/table-shape.ts';
import type { Field } from './row-line.ts';

/** Which of two unlike rows stands. `neither` = nothing tells them apart: ours stays and it is said. */
export type Which = 'theirs' | 'ours' | 'neither';

/** Which side is newer, row by row, as it was before the merge began. */
export interface NewerRows {
  /** Of two unlike rows with this key. */
  which(shape: TableShape, key: readonly Field[]): Which;
  /** A row of ours gave way. */
  touch(shape: TableShape, key: readonly Field[]): void;
  /** Rows that only theirs has, told by a condition on `o`, are about to come in. */
  touchNew(shape: TableShape, missing: string): void;
  /** Name of the temporary table of rows whose sets are theirs: `key`, and `is_new` 1 or 0. */
  ownersTable(table: string): string;
  /** Rows of a set that came with its owners are owners themselves. */
  passOn(shape: TableShape, column: string, owners: string, to: string): void;
}

/** Prepares what tells which rows are newer, on a merge's own connection. */
export function newerRows(sqlite: BetterSqlite.Database, shapes: readonly TableShape[]): NewerRows {
  const byName = new Map(shapes.map((shape) => [shape.name, shape]));
  const ownersTable = (table: string) => `temp."owners_${table}"`;
  sqlite.exec(
    'drop table if exists temp.touched_jobs; create temp table touched_jobs (id text primary key)',
  );
  for (const { name, key } of shapes) {
    if (key.length !== 1) continue;
    sqlite.exec(
      `drop table if exists ${ownersTable(name)}; create temp table "owners_${name}" ("key" primary key, is_new integer)`,
    );
  }
  const touchJobs = sqlite.prepare('insert or ignore into temp.touched_jobs values (?)');

  // Owners are merged before what they own: their times are looked at first, all at once.
  const sides = new Map<string, ReadonlyMap<Field, Which>>();
  for (const shape of shapes) {
    const rule = mergeRuleOf(shape);
    if (rule.kind !== 'row' || shape.key.length !== 1) continue;
    const { newer } = rule;
    if (newer.by !== 'time' && newer.by !== 'fullness') continue;
    const [id] = shape.key;
    const theirs = newer.by === 'time' ? `o."${newer.column}"` : fullnessOf(shape, 'o');
    const ours = newer.by === 'time' ? `m."${newer.column}"` : fullnessOf(shape, 'm');
    const rows = sqlite
      .prepare<[], { id: Field; ours: Field; theirs: Field; live: number }>(
        `select m."${id}" as id, ${ours} as ours, ${theirs} as theirs, ${isLive(shape)} as live from main."${shape.name}" m join other."${shape.name}" o on m."${id}" = o."${id}" where ${ours} is not ${theirs} or ${isLive(shape)}`,
      )
      .all();
    sides.set(
      shape.name,
      new Map(rows.map((row) => [row.id, row.live === 1 ? 'ours' : sideOf(row)])),
    );
  }

  const which = (shape: TableShape, key: readonly Field[]): Which => {
    const rule = mergeRuleOf(shape);
    if (rule.kind !== 'row') return 'neither';
    const { newer } = rule;
    const [id] = key;
    const known = shape.key.length === 1 ? sides.get(shape.name)?.get(id ?? null) : undefined;
    if (known !== undefined && known !== 'neither') return known;
    if (newer.by === 'time')
      return shape.key.length === 1 ? 'neither' : byTime(shape, key, newer.column);
    const owner =
      newer.by === 'owner'
        ? newer.owner
        : newer.by === 'fullness'
          ? shape.foreign.find(({ table }) => table === 'jobs')
          : undefined;
    const owning = owner === undefined ? undefined : byName.get(owner.table);
    if (owner === undefined || owning === undefined) return 'neither';
    const ownerKey = sqlite
      .prepare<Field[], Field>(
        `select "${owner.column}" from other."${shape.name}" where ${shape.key.map((one) => `"${one}" = ?`).join(' and ')}`,
      )
      .pluck()
      .get(...key);
    return ownerKey === null || ownerKey === undefined ? 'neither' : which(owning, [ownerKey]);
  };

  const byTime = (shape: TableShape, key: readonly Field[], column: string): Which => {
    const at = (schema: string) =>
      sqlite
        .prepare<Field[], Field>(
          `select "${column}" from ${schema}."${shape.name}" where ${shape.key.map((one) => `"${one}" = ?`).join(' and ')}`,
        )
        .pluck()
        .get(...key) ?? null;
    return sideOf({ ours: at('main'), theirs: at('other') });
  };

  return {
    which,
    ownersTable,
    touch(shape, key) {
      if (shape.name === 'jobs') touchJobs.run(key[0] ?? null);
      else if (columnNames(shape).includes('job_id')) {
        const where = shape.key.map((one) => `"${one}" = ?`).join(' and ');
        sqlite
          .prepare(
            `insert or ignore into temp.touched_jobs select job_id from main."${shape.name}" where ${where} and job_id is not null`,
          )
          .run(...key);
      }
      if (shape.key.length !== 1) return;
      // A run's row may be newer while its samples are the same: those are left where they are.
      const isSame =
        mergeRuleIs(shape, 'fullness') && sides.get(shape.name)?.get(key[0] ?? null) !== 'theirs';
      if (isSame) return;
      sqlite
        .prepare(`insert or ignore into ${ownersTable(shape.name)} values (?, 0)`)
        .run(key[0] ?? null);
    },
    touchNew(shape, missing) {
      if (shape.name === 'jobs' || columnNames(shape).includes('job_id')) {
        const column = shape.name === 'jobs' ? 'id' : 'job_id';
        sqlite
          .prepare(
            `insert or ignore into temp.touched_jobs select o."${column}" from other."${shape.name}" o where o."${column}" is not null and ${missing}`,
          )
          .run();
      }
      if (shape.key.length !== 1) return;
      sqlite
        .prepare(
          `insert or ignore into ${ownersTable(shape.name)} select o."${shape.key[0]}", 1 from other."${shape.name}" o where ${missing}`,
        )
        .run();
    },
    passOn(shape, column, owners, to) {
      if (shape.key.length !== 1 || to === '') return;
      sqlite
        .prepare(
          `insert or ignore into ${ownersTable(shape.name)} select o."${shape.key[0]}", 1 from other."${shape.name}" o where o."${column}" in (select "key" from ${owners})`,
        )
        .run();
    },
  };
}

function mergeRuleIs(shape: TableShape, by: string): boolean {
  const rule = mergeRuleOf(shape);
  return rule.kind === 'row' && rule.newer.by === by;
}

/** More samples is fuller; of equal ones the one whose end was written, not found again. */
function fullnessOf(shape: TableShape, alias: string): string {
  const names = columnNames(shape);
  const end = names.includes('end_reason')
    ? ` + (${alias}.end_reason is not 'recovered') * 0.5`
    : '';
  return `(${alias}.samples${end})`;
}

/** A run that this app is recording stays ours whatever the other has of it. */
function isLive(shape: TableShape): string {
  return columnNames(shape).includes('ended_at') && shape.name === 'runs'
    ? 'm.ended_at is null'
    : '0';
}

function sideOf({ ours, theirs }: { readonly ours: Field; readonly theirs: Field }): Which {
  const [a, b] = [Number(ours ?? -1), Number(theirs ?? -1)];
  return a === b ? 'neither' : b > a ? 'theirs' : 'ours';
}
