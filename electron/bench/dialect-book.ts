import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type Trouble, WakelineError } from '../../core/errors.ts';
import { type MeterDialect, meterDialect } from '../../core/instruments/meter-dialect.ts';
import { type SupplyDialect, supplyDialect } from '../../core/instruments/supply-dialect.ts';

/**
 * A dialect as a file. `identity` is what `*IDN?` says, or its beginning before a `*`. Files that
 * the app wrote say so and may be written again; those of a person are only ever read.
 */
const dialectFile = z.discriminatedUnion('role', [
  z.strictObject({
    role: z.literal('supply'),
    identity: z.string().min(2).max(400),
    keptBy: z.enum(['app', 'person']),
    dialect: supplyDialect,
  }),
  z.strictObject({
    role: z.literal('meter'),
    identity: z.string().min(2).max(400),
    keptBy: z.enum(['app', 'person']),
    dialect: meterDialect,
  }),
]);
type DialectFile = z.infer<typeof dialectFile>;

/** The dialects that instruments were found to speak, kept as files that a person may edit. */
export interface DialectBook {
  supply(identity: string): SupplyDialect | undefined;
  meter(identity: string): MeterDialect | undefined;
  /** Keeps what was found, unless a person's file says otherwise. Throws `file-not-written`. */
  keepSupply(identity: string, dialect: SupplyDialect): void;
  keepMeter(identity: string, dialect: MeterDialect): void;
  /** Files that were not taken, each with what is wrong, where and what to do. */
  readonly troubles: readonly Trouble[];
}

interface Entry {
  readonly name: string;
  readonly file: DialectFile;
}

/** Reads one dialect file. Throws `bad-dialect` that names the file and the key. */
export function readDialectFile(path: string): DialectFile {
  const bad = (what: string, todo: string, cause?: unknown) =>
    new WakelineError({ code: 'bad-dialect', what, where: path, todo }, { cause });
  let json: unknown;
  try {
    json = JSON.parse(readFileSync(path, 'utf8'));
  } catch (cause) {
    const text = cause instanceof Error ? cause.message : String(cause);
    throw bad(`It is no JSON: ${text}`, 'Mend the file, or remove it to find the dialect anew.');
  }
  const checked = dialectFile.safeParse(json);
  if (checked.success) return checked.data;
  const { path: at, message } = checked.error.issues[0]!;
  const key = at.length === 0 ? 'the file' : at.join('.');
  throw bad(
    `At ${key}: ${message}`,
    'Mend the file after the page on dialects in DEVELOPERS.md, or remove it.',
  );
}

/** Opens the folder of dialect files, made when it is not there. Bad files are told and left alone. */
export function openDialectBook(folder: string): DialectBook {
  const entries: Entry[] = [];
  const troubles: Trouble[] = [];
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder).filter((one) => one.endsWith('.json'))) {
    try {
      entries.push({ name, file: readDialectFile(join(folder, name)) });
    } catch (thrown) {
      if (!(thrown instanceof WakelineError)) throw thrown;
      troubles.push(thrown.trouble);
    }
  }

  /** A person's file before the app's, the longer identity before the shorter. */
  function find(role: DialectFile['role'], identity: string): Entry | undefined {
    const rank = ({ file }: Entry) => (file.keptBy === 'person' ? 1000 : 0) + file.identity.length;
    return entries
      .filter(({ file }) => file.role === role && isFor(file.identity, identity))
      .sort((a, b) => rank(b) - rank(a))[0];
  }

  function keep(file: DialectFile): void {
    const known = find(file.role, file.identity);
    if (known?.file.keptBy === 'person') return;
    if (known !== undefined && JSON.stringify(known.file) === JSON.stringify(file)) return;
    const name = known?.name ?? freeName(file, entries);
    write(join(folder, name), file);
    if (known !== undefined) entries.splice(entries.indexOf(known), 1);
    entries.push({ name, file });
  }

  return {
    troubles,
    supply(identity) {
      const file = find('supply', identity)?.file;
      return file?.role === 'supply' ? file.dialect : undefined;
    },
    meter(identity) {
      const file = find('meter', identity)?.file;
      return file?.role === 'meter' ? file.dialect : undefined;
    },
    keepSupply: (identity, dialect) => keep({ role: 'supply', identity, keptBy: 'app', dialect }),
    keepMeter: (identity, dialect) => keep({ role: 'meter', identity, keptBy: 'app', dialect }),
  };
}

function isFor(pattern: string, identity: string): boolean {
  if (!pattern.endsWith('*')) return pattern === identity;
  return identity.startsWith(pattern.slice(0, -1));
}

function freeName({ role, identity }: DialectFile, entries: readonly Entry[]): string {
  const slug = identity
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 60);
  for (let i = 1; ; i += 1) {
    const name = `${role}-${slug}${i === 1 ? '' : `-${i}`}.json`;
    if (!entries.some((entry) => entry.name === name)) return name;
  }
}

/** Written whole or not at all. */
function write(path: string, file: DialectFile): void {
  try {
    writeFileSync(`${path}.part`, `${JSON.stringify(file, null, 2)}\n`);
    renameSync(`${path}.part`, path);
  } catch (cause) {
    const text = cause instanceof Error ? cause.message : String(cause);
    throw new WakelineError(
      {
        code: 'file-not-written',
        what: `The dialect was not kept: ${text}`,
        where: path,
        todo: 'Check the folder and the disk. The instrument works; it is found out anew next time.',
      },
      { cause },
    );
  }
}
