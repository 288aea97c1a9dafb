import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import type { Trouble } from '../../core/errors.ts';
import { FIRST_GUARD, type GuardSettings, guardSettings } from '../../core/guard/guard-settings.ts';

const schema = z.strictObject({
  bench: guardSettings,
  jobs: z.record(z.uuid(), guardSettings),
});

/** The guard's settings on disk: the bench's, and those of jobs that have their own. */
export interface GuardFile {
  readonly bench: GuardSettings;
  readonly jobs: Readonly<Record<string, GuardSettings>>;
}

/**
 * Reads the settings. A file that cannot be read guards as nothing chosen yet, and is said: a
 * technician relies on limits that were entered once.
 */
export function readGuardFile(path: string): { settings: GuardFile; trouble: Trouble | null } {
  const first = { bench: FIRST_GUARD, jobs: {} };
  if (!existsSync(path)) return { settings: first, trouble: null };
  try {
    return { settings: schema.parse(JSON.parse(readFileSync(path, 'utf8'))), trouble: null };
  } catch (thrown) {
    const why = thrown instanceof z.ZodError ? z.prettifyError(thrown) : String(thrown);
    return {
      settings: first,
      trouble: {
        code: 'bad-input',
        what: `The guard's limits cannot be read, so none of them is in force: ${why}`,
        where: path,
        todo: 'Enter the limits again on the power-up sheet; that replaces the file.',
      },
    };
  }
}

/** Keeps the settings, whole or not at all. */
export function keepGuardFile(path: string, settings: GuardFile): void {
  writeFileSync(`${path}.new`, `${JSON.stringify(settings, null, 2)}\n`);
  renameSync(`${path}.new`, path);
}
