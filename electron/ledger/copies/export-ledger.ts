import { mkdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { EXPORT_FORMAT, type ExportManifest } from '../../../core/copies/export-manifest.ts';
import { exportReadme } from '../../../core/copies/export-readme.ts';
import { inOrder, mergeRuleOf } from '../../../core/copies/merge-rule.ts';
import type { TableShape } from '../../../core/copies/table-shape.ts';
import { appliedMigrations } from '../migrate-ledger.ts';
import { copyTrouble } from './copy-trouble.ts';
import { readingsCsv, runsCsv, samplesCsv, type TrackLine, trackFile } from './export-csv.ts';
import { writeHashed } from './hashed-file.ts';
import { openCopy } from './open-copy.ts';
import { copyPictures, picturesOf } from './picture-copies.ts';
import { readShapes } from './read-shapes.ts';
import { lineOfRow, type Row } from './row-line.ts';

/** How far a long piece of work is; `total` 0 = not known yet. */
export type Tell = (words: string, done: number, total: number) => void;

export interface ExportDone {
  readonly folder: string;
  readonly rows: number;
  readonly runs: number;
  readonly pictures: number;
  readonly bytes: number;
}

/**
 * Writes a whole ledger as open files: `snapshot` is a copy that nobody writes to, `pictures` the
 * ledger's folder of picture files. Everything goes into a folder beside `folder` that takes its name
 * once it is complete. Throws `disk-full`, `folder-missing`, `file-not-written`; no half folder stays.
 */
export async function exportLedger(o: {
  readonly snapshot: string;
  readonly pictures: string;
  readonly folder: string;
  readonly app: string;
  readonly ledgerId: string;
  readonly madeAt: number;
  readonly tell: Tell;
}): Promise<ExportDone> {
  const growing = path.join(path.dirname(o.folder), `.${path.basename(o.folder)}.part`);
  const sqlite = openCopy(o.snapshot, { readonly: true });
  try {
    await rm(growing, { recursive: true, force: true });
    await mkdir(growing);
    const done = await writeAll(sqlite, growing, o);
    await rename(growing, o.folder);
    return { ...done, folder: o.folder };
  } catch (thrown) {
    await rm(growing, { recursive: true, force: true }).catch(() => {});
    throw copyTrouble(thrown, o.folder);
  } finally {
    sqlite.close();
  }
}

async function writeAll(
  sqlite: BetterSqlite.Database,
  folder: string,
  o: Parameters<typeof exportLedger>[0],
): Promise<Omit<ExportDone, 'folder'>> {
  const shapes = inOrder(readShapes(sqlite)).filter((one) => mergeRuleOf(one).kind !== 'local');
  const counts = new Map(shapes.map(({ name }) => [name, countOf(sqlite, name)]));
  const runs = counts.get('runs') ?? 0;
  const tracks = counts.get('tracks') ?? 0;
  const total = [...counts.values()].reduce((sum, count) => sum + count, 0) + tracks;
  let done = 0;
  let bytes = 0;

  const tables: ExportManifest['tables'] = [];
  for (const shape of shapes) {
    const counted = { rows: 0 };
    const lines = linesOf(sqlite, shape, counted, () => {
      done += 1;
      if (done % 64 === 0) o.tell(shape.name, done, total);
    });
    const file = `tables/${shape.name}.jsonl`;
    const written = await writeHashed(path.join(folder, file), lines);
    tables.push({ table: shape.name, file, rows: counted.rows, ...written });
    bytes += written.bytes;
  }

  const forReading: ExportManifest['forReading'] = [];
  const csv = async (file: string, rows: number, texts: Iterable<string>) => {
    const written = await writeHashed(path.join(folder, file), texts);
    forReading.push({ file, rows, ...written });
    bytes += written.bytes;
  };
  await csv('csv/readings.csv', counts.get('readings') ?? 0, readingsCsv(sqlite));
  await csv('csv/runs.csv', runs, runsCsv(sqlite));
  const samples = sqlite
    .prepare<[string], number>('select total(samples) from chunks where track_id = ?')
    .pluck();
  const each = sqlite.prepare<[], TrackLine>('select id, run_id, role, quantity from tracks');
  for (const track of each.all()) {
    done += 1;
    o.tell('samples', done, total);
    await csv(trackFile(track), samples.get(track.id) ?? 0, samplesCsv(sqlite, track));
  }

  o.tell('pictures', total, total);
  const pictures = await copyPictures({
    from: o.pictures,
    to: path.join(folder, 'pictures'),
    names: picturesOf(sqlite),
  });
  bytes += pictures.reduce((sum, one) => sum + one.bytes, 0);

  const schema = [...appliedMigrations(sqlite)].pop() ?? '';
  const madeAt = new Date(o.madeAt).toISOString();
  const manifest: ExportManifest = {
    format: EXPORT_FORMAT,
    app: o.app,
    schema,
    madeAt,
    ledgerId: o.ledgerId,
    tables,
    pictures: pictures.map((one) => ({ ...one, file: `pictures/${one.file}` })),
    forReading,
  };
  const readme = exportReadme({ app: o.app, schema, madeAt, shapes });
  await writeHashed(path.join(folder, 'README.md'), [readme]);
  await writeHashed(path.join(folder, 'manifest.json'), [`${JSON.stringify(manifest, null, 2)}\n`]);
  const rows = tables.reduce((sum, table) => sum + table.rows, 0);
  return { rows, runs, pictures: pictures.length, bytes };
}

/** Rows of a table; 0 where it is not there. */
export function countOf(sqlite: BetterSqlite.Database, table: string, schema = 'main'): number {
  return sqlite.prepare<[], number>(`select count(*) from ${schema}."${table}"`).pluck().get() ?? 0;
}

function* linesOf(
  sqlite: BetterSqlite.Database,
  { name, key }: TableShape,
  counted: { rows: number },
  tell: () => void,
): Generator<string> {
  const order = key.map((column) => `"${column}"`).join(', ');
  const rows = sqlite.prepare<[], Row>(
    `select * from "${name}"${order === '' ? '' : ` order by ${order}`}`,
  );
  for (const row of rows.iterate()) {
    counted.rows += 1;
    tell();
    yield lineOfRow(row);
  }
}
