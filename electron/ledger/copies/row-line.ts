import { columnNames, type TableShape } from '../../../core/copies/table-shape.ts';
import { WakelineError } from '../../../core/errors.ts';

/** What SQLite holds in a field, as its driver hands it over. */
export type Field = string | number | bigint | null | Uint8Array;
export type Row = Readonly<Record<string, Field>>;

/** A row as one line of JSON: bytes as base64, numbers that JSON cannot say by name. */
export function lineOfRow(row: Row): string {
  const plain = Object.entries(row).map(([name, value]) => [name, jsonOf(value)]);
  return `${JSON.stringify(Object.fromEntries(plain))}\n`;
}

function jsonOf(value: Field): unknown {
  if (value instanceof Uint8Array) {
    return {
      base64: Buffer.from(value.buffer, value.byteOffset, value.byteLength).toString('base64'),
    };
  }
  if (typeof value === 'bigint') return { integer: value.toString() };
  if (typeof value !== 'number') return value;
  if (!Number.isFinite(value)) return { float: String(value) };
  return Object.is(value, -0) ? { float: '-0' } : value;
}

/**
 * The fields of one line, in the order of the table's columns; a column that the line leaves out is
 * null. Throws `bad-export` naming `where`.
 */
export function fieldsOfLine(line: string, shape: TableShape, where: string): readonly Field[] {
  let parsed: unknown;
  try {
    parsed = JSON.parse(line);
  } catch {
    throw bad('This line is not JSON', where);
  }
  if (typeof parsed !== 'object' || parsed === null || Array.isArray(parsed)) {
    throw bad('This line is not a row', where);
  }
  const row = parsed as Readonly<Record<string, unknown>>;
  const names = columnNames(shape);
  const odd = Object.keys(row).find((name) => !names.includes(name));
  if (odd !== undefined) throw bad(`There is no field ${odd} in ${shape.name}`, where);
  return names.map((name) => fieldOf(row[name], `${where}, ${name}`));
}

function fieldOf(value: unknown, where: string): Field {
  if (value === undefined || value === null) return null;
  if (typeof value === 'string' || typeof value === 'number') return value;
  if (typeof value === 'object') {
    const { base64, float, integer } = value as Readonly<Record<string, unknown>>;
    if (typeof base64 === 'string' && /^[A-Za-z0-9+/]*={0,2}$/.test(base64)) {
      return Buffer.from(base64, 'base64');
    }
    if (float === 'Infinity' || float === '-Infinity' || float === '-0') return Number(float);
    if (typeof integer === 'string' && /^-?\d{1,19}$/.test(integer)) return BigInt(integer);
  }
  throw bad('This field holds nothing that a ledger could', where);
}

function bad(what: string, where: string): WakelineError {
  return new WakelineError({
    code: 'bad-export',
    what,
    where,
    todo: 'Mend the line, or export the ledger again. Nothing was taken in.',
  });
}
