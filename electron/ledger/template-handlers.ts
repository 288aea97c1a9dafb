import { stepKey } from '../../core/checklist/edit-steps.ts';
import { gateLosses } from '../../core/checklist/gate-losses.ts';
import { templates } from '../../core/checklist/template.ts';
import { checkTemplate } from '../../core/checklist/template-file.ts';
import { stepFrom, type Template } from '../../core/checklist/template-step.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { templateCalls } from '../../core/contract/template-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import { readInitialsOf, writeInitials } from './initials-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import {
  currentVersion,
  findVersion,
  templateKeys,
  versionsOf,
  writeVersion,
} from './template-store.ts';

/** The window's calls about the shop's checklists and its initials. */
export function createTemplateHandlers(context: LedgerContext): Handlers<typeof templateCalls> {
  const { db, newId, now } = context;

  const facts = async (trx: Db) => ({
    id: newId(),
    madeBy: await readInitialsOf(trx),
    madeAt: now(),
  });

  return {
    listTemplates: () =>
      db.transaction().execute(async (trx) => {
        const keys = await templateKeys(trx);
        const found = [];
        for (const key of keys) found.push(await currentVersion(trx, key, context));
        return found;
      }),

    templateHistory: ({ key }) =>
      db.transaction().execute(async (trx) => {
        await currentVersion(trx, key, context);
        return versionsOf(trx, key);
      }),

    saveTemplate: ({ key, title, steps, understood, isFromFile }) =>
      db.transaction().execute(async (trx) => {
        const template: Template = {
          key: key ?? (await freshKey(trx, title)),
          title: title.trim(),
          steps,
        };
        checkTemplate(template, 'the checklist');
        const losses = gateLosses(template);
        const unsaid = losses.filter((loss) => !understood.includes(loss.id));
        if (unsaid.length > 0) {
          throw new WakelineError({
            code: 'gate-closed',
            what: unsaid.map(({ what, guards }) => `${what}. ${guards}`).join(' '),
            where: template.title,
            todo: 'Put the step back as it was, or say that this is understood. Nothing was kept.',
          });
        }
        return writeVersion(trx, template, {
          ...(await facts(trx)),
          origin: isFromFile ? 'file' : 'shop',
          lost: losses.map(({ what }) => what),
        });
      }),

    restoreTemplate: ({ key }) =>
      db.transaction().execute(async (trx) => {
        const builtIn = templates.find((template) => template.key === key);
        if (builtIn === undefined) {
          throw new WakelineError({
            code: 'bad-input',
            what: 'This kind of job is the shop’s own: there is no built-in checklist to return to',
            where: key,
            todo: 'Choose an older version of it, or put it away.',
          });
        }
        return writeVersion(trx, builtIn, { ...(await facts(trx)), origin: 'built-in', lost: [] });
      }),

    putTemplateAway: ({ key, isAway }) =>
      db.transaction().execute(async (trx) => {
        const newest = await currentVersion(trx, key, context);
        if (templates.some((template) => template.key === key)) {
          throw new WakelineError({
            code: 'bad-input',
            what: `"${newest.title}" comes with the app and stays`,
            where: key,
            todo: 'Edit it, or return to the built-in one.',
          });
        }
        return writeVersion(trx, newest, {
          ...(await facts(trx)),
          origin: isAway ? 'away' : 'shop',
          lost: newest.lost,
        });
      }),

    async readJobTemplate({ jobId }) {
      const job = await findJobRow(db, jobId);
      if (job === undefined) throw missing('job', jobId);
      const version = job.template_id === null ? undefined : await findVersion(db, job.template_id);
      const newest = (await versionsOf(db, job.template))[0]?.version ?? 0;
      return { version: version ?? null, newest };
    },

    readInitials: () => readInitialsOf(db),

    async sayInitials({ initials }) {
      await writeInitials(db, initials);
      return initials;
    },
  };
}

async function freshKey(db: Db, title: string): Promise<string> {
  const taken = (await templateKeys(db)).map((key) =>
    stepFrom({ step: key, phase: 'Look', title: key }),
  );
  return stepKey(title, taken);
}
