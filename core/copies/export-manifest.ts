import { z } from 'zod';
import { WakelineError } from '../errors.ts';

/** Grows when the folder's layout changes so that an older app could not read it. */
export const EXPORT_FORMAT = 1;

const listed = z.object({
  file: z.string().min(1),
  bytes: z.number().int().min(0),
  /** Lower-case hex; null = not to be checked, for a file that was changed on purpose. */
  sha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/, 'is not 64 hex digits')
    .nullable(),
});

const manifest = z.object({
  format: z.number().int().min(1),
  app: z.string(),
  /** Name of the newest migration that the ledger had been through. */
  schema: z.string().min(1),
  madeAt: z.string(),
  ledgerId: z.string(),
  tables: z.array(listed.extend({ table: z.string().min(1), rows: z.number().int().min(0) })),
  pictures: z.array(listed),
  /** Files for reading: an import leaves them alone. */
  forReading: z.array(listed.extend({ rows: z.number().int().min(0) })),
});

/** What an exported folder holds, with counts and hashes. */
export type ExportManifest = z.infer<typeof manifest>;

const refuse = (what: string, where: string, todo: string): never => {
  throw new WakelineError({ code: 'bad-export', what, where, todo });
};

/**
 * Reads `manifest.json`. `schemas` are the migrations that this app knows.
 * @throws WakelineError `bad-export` naming the field, `export-newer` for a folder of a later app.
 */
export function readManifest(
  text: string,
  where: string,
  schemas: readonly string[],
): ExportManifest {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return refuse('The manifest is not JSON', where, 'Export the ledger again. Nothing was read.');
  }
  const format = typeof json === 'object' && json !== null && 'format' in json ? json.format : null;
  if (typeof format === 'number' && format > EXPORT_FORMAT) newer(where);
  const read = manifest.safeParse(json);
  if (!read.success) {
    const [first] = read.error.issues;
    const field = first?.path.join('.') ?? '';
    return refuse(
      `The manifest does not hold what it must: ${first?.message ?? 'unknown'}`,
      `${where}, ${field === '' ? 'the whole of it' : field}`,
      'Export the ledger again. Nothing was read.',
    );
  }
  if (!schemas.includes(read.data.schema)) newer(`${where}, schema ${read.data.schema}`);
  const odd = [...read.data.tables, ...read.data.pictures].find(({ file }) => !staysInside(file));
  if (odd !== undefined) {
    refuse(
      'The manifest names a file outside of its folder',
      `${where}, ${odd.file}`,
      'Do not trust this folder. Nothing was read.',
    );
  }
  return read.data;
}

function newer(where: string): never {
  throw new WakelineError({
    code: 'export-newer',
    what: 'This folder was exported by a newer version of the app',
    where,
    todo: 'Install the newest version and read it with that. Nothing was changed.',
  });
}

/** Whether a path from a manifest stays in the manifest's folder. */
export function staysInside(file: string): boolean {
  return !/^([a-z]:|[/\\])/i.test(file) && !file.split(/[/\\]/).includes('..');
}
