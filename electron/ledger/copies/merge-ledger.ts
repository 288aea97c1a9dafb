import type BetterSqlite from 'better-sqlite3';
import type { MergedTable, MergeReport } from '../../../core/copies/merge-report.ts';
import {
  inOrder,
  keptColumns,
  type MergeRule,
  mergeRuleOf,
} from '../../../core/copies/merge-rule.ts';
import { columnNames, type TableShape } from '../../../core/copies/table-shape.ts';
import { WakelineError } from '../../../core/errors.ts';
import { keepBothBoards, tellDoubles } from './merge-doubles.ts';
import { numberJobs } from './merge-jobs.ts';
import { type NewerRows, newerRows } from './merge-newer.ts';
import { joinUnique, keepBothTemplates } from './merge-same.ts';
import { readShapes } from './read-shapes.ts';
import type { Field } from './row-line.ts';

/** What a merge told, and the jobs whose links and search words follow from it. */
export interface Merged {
  readonly report: MergeReport;
  readonly jobs: readonly string[];
}

/** How many unlike rows are told one by one. */
const MOST_TOLD = 20;

const list = (names: readonly string[], prefix = '') =>
  names.map((name) => `${prefix}"${name}"`).join(', ');
const same = (key: readonly string[], a: string, b: string) =>
  key.map((name) => `${a}."${name}" = ${b}."${name}"`).join(' and ');

/**
 * Takes every row of the attached ledger `other` into `main`, inside the transaction that the caller
 * holds: by id, each row once; the newer of two unlike ones by the table's rule; sets of an owner
 * together. Nothing is deleted but what a newer set replaces. Merging again changes nothing.
 * @throws WakelineError `internal` for a ledger of another schema: stage it first.
 */
export function mergeLedger(sqlite: BetterSqlite.Database): Merged {
  const shapes = inOrder(readShapes(sqlite));
  refuseOtherSchema(shapes, readShapes(sqlite, 'other'));
  sqlite.pragma('defer_foreign_keys = ON');
  for (const shape of shapes) {
    // What only follows from other rows would hold their numbers fast.
    if (mergeRuleOf(shape).kind !== 'local' || shape.foreign.length === 0) continue;
    sqlite.exec(`delete from other."${shape.name}"`);
  }
  const told: string[] = tellDoubles(sqlite);
  const renumbered = numberJobs(sqlite);
  told.push(...keepBothBoards(sqlite), ...keepBothTemplates(sqlite, shapes));
  told.push(...joinUnique(sqlite, shapes));
  const newer = newerRows(sqlite, shapes);
  const tables: MergedTable[] = [];
  for (const shape of shapes) {
    const rule = mergeRuleOf(shape);
    if (rule.kind === 'local') continue;
    const merged =
      rule.kind === 'whole'
        ? mergeWhole(sqlite, shape, rule, newer)
        : mergeRows(sqlite, shape, newer, told);
    if (merged.added + merged.changed + merged.kept > 0) tables.push(merged);
  }
  const jobs = sqlite.prepare<[], string>('select id from temp.touched_jobs').pluck().all();
  const at = (table: string) => tables.find((one) => one.table === table);
  return {
    jobs,
    report: {
      tables,
      jobsAdded: at('jobs')?.added ?? 0,
      jobsChanged: jobs.length - (at('jobs')?.added ?? 0),
      runsAdded: at('runs')?.added ?? 0,
      picturesAdded: at('pictures')?.added ?? 0,
      renumbered,
      told: [...new Set(told)].slice(0, MOST_TOLD + 1),
    },
  };
}

function refuseOtherSchema(ours: readonly TableShape[], theirs: readonly TableShape[]): void {
  const words = (shapes: readonly TableShape[]) =>
    [...shapes]
      .map((shape) => `${shape.name}: ${columnNames(shape).join(' ')}`)
      .sort()
      .join('\n');
  if (words(ours) === words(theirs)) return;
  throw new WakelineError({
    code: 'internal',
    what: 'The two ledgers are of different versions',
    where: 'merging',
    todo: 'This is a mistake in the app; report it. Nothing was changed.',
  });
}

/** Rows one by one: those that are new come in, of two unlike ones the newer stands. */
function mergeRows(
  sqlite: BetterSqlite.Database,
  shape: TableShape,
  newer: NewerRows,
  told: string[],
): MergedTable {
  const { name, key } = shape;
  const kept = keptColumns(name);
  const compared = columnNames(shape).filter((one) => !key.includes(one) && !kept.includes(one));
  const unlike = compared.map((one) => `m."${one}" is not o."${one}"`).join(' or ');
  let [changed, stayed] = [0, 0];
  if (unlike !== '') {
    const pairs = sqlite
      .prepare<[], Readonly<Record<string, Field>>>(
        `select ${list(key, 'o.')} from other."${name}" o join main."${name}" m on ${same(key, 'm', 'o')} where ${unlike}`,
      )
      .all();
    const names = compared.map((one) => `"${one}"`).join(', ');
    const take = sqlite.prepare(
      `update main."${name}" set (${names}) = (select ${names} from other."${name}" o where ${same(key, 'o', `main."${name}"`)}) where ${key.map((one) => `"${one}" = ?`).join(' and ')}`,
    );
    for (const pair of pairs) {
      const fields = key.map((one) => pair[one] ?? null);
      const which = newer.which(shape, fields);
      if (which === 'theirs') {
        take.run(...fields);
        changed += 1;
        newer.touch(shape, fields);
        continue;
      }
      stayed += 1;
      if (which === 'neither') told.push(sayUnlike(shape, fields));
    }
  }
  const missing = `not exists (select 1 from main."${name}" m where ${same(key, 'm', 'o')})`;
  newer.touchNew(shape, missing);
  const all = list(columnNames(shape));
  // What else must be unique is told as entered twice, and leaves the rest to come in.
  const sql = `insert into main."${name}" (${all}) select ${list(columnNames(shape), 'o.')} from other."${name}" o where ${missing}`;
  if (shape.unique.length === 0) {
    return { table: name, added: sqlite.prepare(sql).run().changes, changed, kept: stayed };
  }
  const wanted = sqlite
    .prepare<[], number>(`select count(*) from other."${name}" o where ${missing}`)
    .pluck()
    .get();
  const added = sqlite.prepare(`${sql} on conflict do nothing`).run().changes;
  const left = (wanted ?? 0) - added;
  if (left > 0) {
    const unique = shape.unique.map((columns) => columns.join(' and ')).join(', or ');
    told.push(
      `${left} ${left === 1 ? 'row' : 'rows'} of ${name} stayed out: the same ${unique} is entered here under another id.`,
    );
  }
  return { table: name, added, changed, kept: stayed + left };
}

function sayUnlike(shape: TableShape, key: readonly Field[]): string {
  return `${shape.name} ${key.map(String).join(' ')} differs in the two and neither is newer: this ledger's stays.`;
}

/** Sets: a newer owner's set replaces ours, a new owner's comes in, an older one's stays out. */
function mergeWhole(
  sqlite: BetterSqlite.Database,
  shape: TableShape,
  rule: Extract<MergeRule, { kind: 'whole' }>,
  newer: NewerRows,
): MergedTable {
  const { name } = shape;
  const { column, table } = rule.owner;
  const owners = newer.ownersTable(table);
  const foreign = shape.foreign.find((one) => one.column === column);
  const to = foreign?.to ?? 'id';
  const replaced = sqlite
    .prepare(
      `delete from main."${name}" where "${column}" in (select "key" from ${owners} where is_new = 0)`,
    )
    .run().changes;
  const all = columnNames(shape);
  const put = sqlite
    .prepare(
      `insert into main."${name}" (${list(all)}) select ${list(all, 'o.')} from other."${name}" o where o."${column}" in (select "key" from ${owners})`,
    )
    .run().changes;
  // What hangs on rows of this set comes or stays with the same owners.
  newer.passOn(shape, column, owners, to);
  return {
    table: name,
    added: Math.max(0, put - replaced),
    changed: Math.min(put, replaced),
    kept: 0,
  };
}
