import type { Selectable } from 'kysely';
import { templates } from '../../core/checklist/template.ts';
import type { Template, TemplateStep } from '../../core/checklist/template-step.ts';
import type { TemplateOrigin, TemplateVersion } from '../../core/checklist/template-version.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Db } from './ledger-context.ts';
import type { ChecklistTemplateRow } from './template-tables.ts';

/** What writing a version needs beside the template. */
export interface VersionFacts {
  readonly id: string;
  readonly origin: TemplateOrigin;
  readonly lost: readonly string[];
  readonly madeBy: string;
  readonly madeAt: number;
}

function versionFromRow(row: Selectable<ChecklistTemplateRow>): TemplateVersion {
  return {
    id: row.id,
    key: row.key,
    version: row.version,
    title: row.title,
    steps: JSON.parse(row.steps_json) as readonly TemplateStep[],
    origin: row.origin as TemplateOrigin,
    lost: JSON.parse(row.lost_json) as readonly string[],
    madeBy: row.made_by,
    madeAt: row.made_at,
  };
}

/** Every version of a kind of job, newest first. */
export async function versionsOf(db: Db, key: string): Promise<readonly TemplateVersion[]> {
  const rows = await db
    .selectFrom('checklist_templates')
    .selectAll()
    .where('key', '=', key)
    .orderBy('version', 'desc')
    .execute();
  return rows.map(versionFromRow);
}

export async function findVersion(db: Db, id: string): Promise<TemplateVersion | undefined> {
  const row = await db
    .selectFrom('checklist_templates')
    .selectAll()
    .where('id', '=', id)
    .executeTakeFirst();
  return row === undefined ? undefined : versionFromRow(row);
}

/** Writes the next version of a template's kind of job and answers it. */
export async function writeVersion(
  db: Db,
  { key, title, steps }: Template,
  facts: VersionFacts,
): Promise<TemplateVersion> {
  const version = ((await versionsOf(db, key))[0]?.version ?? 0) + 1;
  await db
    .insertInto('checklist_templates')
    .values({
      id: facts.id,
      key,
      version,
      title,
      steps_json: JSON.stringify(steps),
      origin: facts.origin,
      lost_json: JSON.stringify(facts.lost),
      made_by: facts.madeBy,
      made_at: facts.madeAt,
    })
    .execute();
  return { key, title, steps, version, ...facts };
}

/**
 * The newest version of a kind of job. A built-in one is written down the first time that it is
 * needed, and again when an update of the app changed it while the shop had not: a job refers to
 * rows only, so that nothing changes under it. Throws `bad-input` naming the kinds there are.
 */
export async function currentVersion(
  db: Db,
  key: string,
  made: { readonly newId: () => string; readonly now: () => number },
): Promise<TemplateVersion> {
  const newest = (await versionsOf(db, key))[0];
  const builtIn = templates.find((template) => template.key === key);
  const isStale =
    builtIn !== undefined &&
    (newest === undefined || (newest.origin === 'built-in' && !isSame(newest, builtIn)));
  if (isStale) {
    return writeVersion(db, builtIn, {
      id: made.newId(),
      origin: 'built-in',
      lost: [],
      madeBy: '',
      madeAt: made.now(),
    });
  }
  if (newest !== undefined) return newest;
  const keys = await templateKeys(db);
  throw new WakelineError({
    code: 'bad-input',
    what: `There is no checklist called "${key}"`,
    where: 'the job’s checklist',
    todo: `Choose one of ${keys.join(', ')}.`,
  });
}

/** Every kind of job: the built-in ones in their order, then the shop's own. */
export async function templateKeys(db: Db): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('checklist_templates')
    .select('key')
    .distinct()
    .orderBy('key')
    .execute();
  return [...new Set([...templates.map(({ key }) => key), ...rows.map(({ key }) => key)])];
}

const isSame = (a: Template, b: Template): boolean =>
  a.title === b.title && JSON.stringify(a.steps) === JSON.stringify(b.steps);
