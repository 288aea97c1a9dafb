import { existsSync, rmSync } from 'node:fs';
import path from 'node:path';
import { migrations } from '../../migrations/migrations.ts';
import { openBare } from './ledger-schema.ts';
import { openSeededLedger } from './seed-ledger.ts';

/**
 * Writes `sample-data/databases/<newest migration>.sqlite` from the invented jobs. Run it once when
 * a schema version ships; it never writes over a file that is there.
 */
const newest = Object.keys(migrations).sort().pop()!;
const folder = path.resolve(import.meta.dirname, '../../sample-data/databases');
const file = path.join(folder, `${newest}.sqlite`);
if (existsSync(file)) {
  console.log(`${file} is shipped already and stays as it is`);
} else {
  const { ledger } = await openSeededLedger(file);
  await ledger.close();
  const sqlite = openBare(file);
  sqlite.pragma('journal_mode = DELETE');
  sqlite.exec('vacuum');
  sqlite.close();
  for (const rest of ['-wal', '-shm']) rmSync(file + rest, { force: true });
  console.log(`wrote ${file}`);
}
