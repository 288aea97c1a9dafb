import { createHash } from 'node:crypto';
import { createReadStream, existsSync, statSync } from 'node:fs';
import { copyFile, readFile } from 'node:fs/promises';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { Kysely } from 'kysely';
import { Migrator } from 'kysely/migration';
import { type ExportManifest, readManifest } from '../../../core/copies/export-manifest.ts';
import { mergeRuleOf } from '../../../core/copies/merge-rule.ts';
import type { TableShape } from '../../../core/copies/table-shape.ts';
import { type ErrorCode, WakelineError } from '../../../core/errors.ts';
import { migrations } from '../../../migrations/migrations.ts';
import { APPLICATION_ID } from '../open-database.ts';
import { openLedgerInThread } from '../open-ledger-in-thread.ts';
import { pictureFolderOf } from '../picture-folder.ts';
import { TransactionalDialect } from '../transactional-dialect.ts';
import type { Tell } from './export-ledger.ts';
import { hashFile } from './hashed-file.ts';
import { openCopy } from './open-copy.ts';
import { readShapes } from './read-shapes.ts';
import { type Field, fieldsOfLine } from './row-line.ts';

/** A foreign ledger made ready to be merged: of this app's version, whole, with no run going on. */
export interface StagedLedger {
  readonly path: string;
  /** Folder of its picture files; null = none came with it. */
  readonly pictures: string | null;
}

const bad = (
  what: string,
  where: string,
  todo: string,
  code: ErrorCode = 'bad-export',
): WakelineError => new WakelineError({ code, what, where, todo });

/**
 * Makes an exported folder or another ledger's file ready at `staged`, a path that is not there yet.
 * Older ones are brought to this version, in the copy. Throws `bad-export` naming file and line,
 * `export-newer`, `ledger-newer`, `not-a-ledger`, `ledger-damaged`, `disk-full`; the source is never
 * written to.
 */
export async function stageLedger(o: {
  readonly source: string;
  readonly staged: string;
  readonly tell: Tell;
}): Promise<StagedLedger> {
  const found = statSync(o.source, { throwIfNoEntry: false });
  if (found === undefined) {
    throw bad('There is nothing at this place', o.source, 'Choose the folder or file again.');
  }
  const pictures = found.isDirectory()
    ? await stageFolder(o.source, o.staged, o.tell)
    : await stageFile(o.source, o.staged);
  // Opened as a ledger once: brings it to this version and ends runs that were going on.
  const ledger = await openLedgerInThread({ path: o.staged });
  await ledger.close();
  return { path: o.staged, pictures };
}

/** A ledger's own file: copied with what its last app left beside it. */
async function stageFile(source: string, staged: string): Promise<string | null> {
  await copyFile(source, staged);
  if (existsSync(`${source}-wal`)) await copyFile(`${source}-wal`, `${staged}-wal`);
  const copy = openCopy(staged);
  try {
    const sound = copy.pragma('integrity_check', { simple: true });
    if (sound !== 'ok') {
      throw bad(
        'The ledger file is damaged',
        source,
        'Use a backup of it. Nothing was taken in.',
        'ledger-damaged',
      );
    }
  } finally {
    copy.close();
  }
  const beside = pictureFolderOf(source);
  return existsSync(beside) ? beside : null;
}

/** An exported folder: built row by row at its own version, each file against the manifest. */
async function stageFolder(folder: string, staged: string, tell: Tell): Promise<string | null> {
  const at = path.join(folder, 'manifest.json');
  const text = await readFile(at, 'utf8').catch(() => null);
  if (text === null) {
    throw bad(
      'This folder has no manifest.json: it is no exported ledger',
      at,
      'Choose the folder that an export wrote. Nothing was taken in.',
    );
  }
  const manifest = readManifest(text, at, Object.keys(migrations));
  await makeEmpty(staged, manifest.schema);
  const sqlite = openCopy(staged);
  try {
    sqlite.pragma('foreign_keys = OFF');
    sqlite.pragma('synchronous = OFF');
    const shapes = readShapes(sqlite);
    const total = manifest.tables.reduce((sum, { bytes }) => sum + bytes, 0);
    let done = 0;
    sqlite.exec('begin');
    for (const table of manifest.tables) {
      const shape = shapes.find(({ name }) => name === table.table);
      if (shape === undefined || mergeRuleOf(shape).kind === 'local') {
        throw bad(
          `There is no table ${table.table} in a ledger of schema ${manifest.schema}`,
          path.join(folder, table.file),
          'Export the ledger again. Nothing was taken in.',
        );
      }
      await readTable(sqlite, folder, shape, table, (bytes) => {
        done += bytes;
        tell(shape.name, done, total);
      });
    }
    refuseLooseRows(sqlite, folder, manifest);
    sqlite.exec('commit');
  } finally {
    sqlite.close();
  }
  for (const [at, picture] of manifest.pictures.entries()) {
    tell('pictures', at, manifest.pictures.length);
    await checkFile(folder, picture);
  }
  return manifest.pictures.length === 0 ? null : path.join(folder, 'pictures');
}

/** An empty ledger of an older or this version. */
async function makeEmpty(file: string, schema: string): Promise<void> {
  const sqlite = openCopy(file);
  const db = new Kysely<unknown>({ dialect: new TransactionalDialect(sqlite) });
  try {
    sqlite.pragma('auto_vacuum = INCREMENTAL');
    sqlite.pragma(`application_id = ${APPLICATION_ID}`);
    const migrator = new Migrator({
      db,
      provider: { getMigrations: async () => ({ ...migrations }) },
    });
    const { error } = await migrator.migrateTo(schema);
    if (error !== undefined) throw error;
  } finally {
    await db.destroy();
  }
}

type Listed = ExportManifest['tables'][number];

async function readTable(
  sqlite: BetterSqlite.Database,
  folder: string,
  shape: TableShape,
  table: Listed,
  tell: (bytes: number) => void,
): Promise<void> {
  const file = path.join(folder, table.file);
  if (!existsSync(file)) throw missingFile(file);
  const places = shape.columns.map(() => '?').join(', ');
  const names = shape.columns.map(({ name }) => `"${name}"`).join(', ');
  const insert = sqlite.prepare<Field[]>(
    `insert into "${shape.name}" (${names}) values (${places})`,
  );
  const hash = createHash('sha256');
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let rest = '';
  let row = 0;
  const take = (line: string): void => {
    row += 1;
    const where = `${table.file}, line ${row}`;
    const fields = fieldsOfLine(line, shape, where);
    try {
      insert.run(...fields);
    } catch (thrown) {
      throw bad(
        `This line cannot be a row of ${shape.name}: ${thrown instanceof Error ? thrown.message : String(thrown)}`,
        where,
        'Mend the line, or export the ledger again. Nothing was taken in.',
      );
    }
  };
  for await (const piece of createReadStream(file, { highWaterMark: 1 << 18 })) {
    const bytes = piece as Buffer;
    hash.update(bytes);
    tell(bytes.byteLength);
    const lines = (rest + textOf(decoder, bytes, `${table.file}, line ${row + 1}`)).split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) take(line);
  }
  if (rest !== '') take(rest);
  if (table.sha256 === null) return;
  if (row !== table.rows) {
    throw bad(
      `It holds ${row} rows; the manifest says ${table.rows}`,
      file,
      'The file was cut or added to. Export the ledger again. Nothing was taken in.',
    );
  }
  if (hash.digest('hex') !== table.sha256) throw wrongHash(file);
}

function textOf(decoder: InstanceType<typeof TextDecoder>, bytes: Buffer, where: string): string {
  try {
    return decoder.decode(bytes, { stream: true });
  } catch {
    throw bad('There is something in it that is not UTF-8', where, 'Export the ledger again.');
  }
}

async function checkFile(
  folder: string,
  listed: { readonly file: string; readonly sha256: string | null },
): Promise<void> {
  const file = path.join(folder, listed.file);
  if (!existsSync(file)) throw missingFile(file);
  if (listed.sha256 !== null && (await hashFile(file)).sha256 !== listed.sha256) {
    throw wrongHash(file);
  }
}

function missingFile(file: string): WakelineError {
  return bad(
    'The manifest names this file and it is not there',
    file,
    'Copy the whole folder again, or export the ledger again. Nothing was taken in.',
  );
}

function wrongHash(file: string): WakelineError {
  return bad(
    'The file is not what was exported: its hash is another',
    file,
    'Copy the folder again. If you changed the file on purpose, set its sha256 in manifest.json to null. Nothing was taken in.',
  );
}

/** A row that points at one that is not there: the file it came from was changed by hand. */
function refuseLooseRows(
  sqlite: BetterSqlite.Database,
  folder: string,
  manifest: ExportManifest,
): void {
  const loose = sqlite.pragma('foreign_key_check') as readonly {
    readonly table: string;
    readonly rowid: number;
    readonly parent: string;
  }[];
  const [first] = loose;
  if (first === undefined) return;
  const file = manifest.tables.find(({ table }) => table === first.table)?.file ?? first.table;
  throw bad(
    `A row of ${first.table} belongs to a row of ${first.parent} that is not there (${loose.length} such rows)`,
    `${path.join(folder, file)}, line ${first.rowid}`,
    'Put the missing row back, or export the ledger again. Nothing was taken in.',
  );
}
