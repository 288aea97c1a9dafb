import type { JobEvidence } from '../../core/cases/case-details.ts';
import { shopTable } from '../../core/cases/cause-tree.ts';
import { keptEvidence } from '../../core/cases/kept-evidence.ts';
import { openBeforeClosing } from '../../core/checklist/gates.ts';
import { itemsAtIntake, type NewItem } from '../../core/checklist/new-items.ts';
import type { Template } from '../../core/checklist/template-step.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import { type UndecidedPart, undecidedParts } from '../../core/donors/part-facts.ts';
import { WakelineError } from '../../core/errors.ts';
import { sightOf } from '../../core/evidence/past-case.ts';
import type { ChecklistItem, Job, Liquid, Part } from '../../core/job/job.ts';
import { boardKey, serialKey } from '../../core/job/same-thing.ts';
import { insertCaseDetails, shopCauses } from './case-store.ts';
import { changeJobWith } from './change-job.ts';
import { linkComebacks } from './comeback-store.ts';
import { findCustomer } from './customer-store.ts';
import { findJobs } from './find-jobs.ts';
import { checklistOf } from './item-handlers.ts';
import { deleteItems, insertItems } from './item-store.ts';
import { jobLines } from './job-list-store.ts';
import { findJobRow, insertJobRow, jobColumns, jobOfRow, updateJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { insertKeptEvidence } from './outcome-evidence-store.ts';
import { insertOutcome } from './outcome-store.ts';
import { detailsOfJob } from './part-detail-store.ts';
import { partsOfJob } from './part-store.ts';
import type { SearchCatchUp } from './search-catch-up.ts';
import { searchTerms } from './search-handlers.ts';
import { indexJob } from './search-index-store.ts';
import { takeJobNumber } from './setting-store.ts';
import type { JobRow } from './tables.ts';
import { templateOfJob } from './template-of-job.ts';
import { currentVersion } from './template-store.ts';
import { writeTerms } from './terms-store.ts';
import { readWhole } from './whole-job.ts';

type JobHandlers = Handlers<
  Pick<
    typeof jobCalls,
    'createJob' | 'changeJob' | 'setJobState' | 'closeJob' | 'listJobs' | 'readJob'
  >
>;

/** The window's calls about jobs themselves. */
export function createJobHandlers(
  context: LedgerContext,
  weigh: (jobId: string) => Promise<JobEvidence>,
  catchUp: SearchCatchUp,
): JobHandlers {
  const { db, newId, now, jobChanged } = context;

  const readJob = async (id: string): Promise<Job> => {
    const row = await findJobRow(db, id);
    if (row === undefined) throw missing('job', id);
    return jobOfRow(db, row);
  };

  /** A job walks another template: what was done or measured stays, untouched steps make room. */
  const walkAnew = async (
    trx: Db,
    jobId: string,
    walked: { readonly from: Template; readonly to: Template; readonly liquid: Liquid },
  ) => {
    const { from, to, liquid } = walked;
    const wanted = itemsAtIntake(to, liquid);
    // Steps that a fitted part called for: no template takes them away again.
    const isAfterFit = (step: string) =>
      from.steps.some((one) => one.step === step && one.when === 'part-fitted');
    const items = await checklistOf(trx, jobId);
    const isUntouched = (item: (typeof items)[number]) =>
      item.state === 'open' && item.readings.length === 0;
    const has = (list: readonly { step: string }[], step: string) =>
      list.some((item) => item.step === step);
    const leaving = items.filter(
      (item) => isUntouched(item) && !isAfterFit(item.step) && !has(wanted, item.step),
    );
    await deleteItems(
      trx,
      leaving.map((item) => item.id),
    );
    const fresh: NewItem[] = wanted.filter((item) => !has(items, item.step));
    await insertItems(trx, jobId, fresh, newId);
  };

  /** Whose a new job is: a known customer, or one that is made of the name on it. */
  const giveToCustomer = async (
    trx: Db,
    jobId: string,
    given: {
      customer: string;
      customerId: string | null | undefined;
      customerReach: string | undefined;
    },
  ) => {
    const { customer: name, customerId, customerReach } = given;
    const known = customerId == null ? null : await findCustomer(trx, customerId);
    if (customerId != null && known === null) throw missing('customer', customerId);
    if (known === null && name === '') return;
    const id = known?.id ?? newId();
    if (known === null) {
      const at = now();
      const row = { id, name, reach: customerReach ?? '', note: '' };
      await trx
        .insertInto('customers')
        .values({ ...row, created_at: at, updated_at: at })
        .execute();
    } else await updateJobRow(trx, jobId, { customer: known.name });
    await writeTerms(trx, jobId, { customer_id: id });
  };

  return {
    async createJob({ customerId, customerReach, ...fields }) {
      const at = now();
      const id = newId();
      await db.transaction().execute(async (trx) => {
        const template = await currentVersion(trx, fields.template, context);
        await insertJobRow(trx, {
          ...(jobColumns(fields) as JobRow),
          template_id: template.id,
          id,
          number: await takeJobNumber(trx),
          board_key: boardKey(fields.boardModel),
          serial_key: serialKey(fields.serialNumber),
          state: 'open',
          comeback_of: null,
          created_at: at,
          updated_at: at,
          binned_at: null,
          search_text: '',
        });
        await insertItems(trx, id, itemsAtIntake(template, fields.liquid), newId);
        await linkComebacks(trx, [serialKey(fields.serialNumber)]);
        await giveToCustomer(trx, id, { customer: fields.customer, customerId, customerReach });
        await indexJob(trx, id);
      });
      jobChanged(id);
      return readJob(id);
    },

    async changeJob({ id, fields }) {
      await changeJobWith(context, id, async (trx) => {
        const before = (await findJobRow(trx, id))!;
        const { boardModel, serialNumber } = fields;
        await updateJobRow(trx, id, {
          ...jobColumns(fields),
          ...(boardModel === undefined ? {} : { board_key: boardKey(boardModel) }),
          ...(serialNumber === undefined ? {} : { serial_key: serialKey(serialNumber) }),
        });
        if (serialNumber !== undefined) {
          await linkComebacks(trx, [before.serial_key, serialKey(serialNumber)]);
        }
        const isOther = fields.template !== undefined && fields.template !== before.template;
        const liquid = fields.liquid ?? (before.liquid as Liquid);
        const own = await templateOfJob(trx, before);
        if (isOther) {
          const version = await currentVersion(trx, fields.template!, context);
          await updateJobRow(trx, id, { template_id: version.id });
          await walkAnew(trx, id, { from: own, to: version, liquid });
        } else if (liquid !== before.liquid) {
          await walkAnew(trx, id, { from: own, to: own, liquid });
        }
      });
      return readJob(id);
    },

    async setJobState({ id, state }) {
      await changeJobWith(context, id, async (trx) => {
        await updateJobRow(trx, id, { state });
        await writeTerms(trx, id, { waiting_for: '' });
      });
      return readJob(id);
    },

    async closeJob({ id, outcome, details }) {
      const evidence = await weigh(id);
      const sights = evidence.findings.map(({ key }) => sightOf(key));
      const { causes } = shopTable(await shopCauses(db));
      const picked = causes.find(({ key }) => key === details?.causeKey);
      await changeJobWith(context, id, async (trx) => {
        const parts = await partsOfJob(trx, id);
        refuseLeftOff(undecidedParts(parts, await detailsOfJob(trx, id)));
        if (outcome.verdict === 'wakes') refuseUnproved(await checklistOf(trx, id), parts);
        const outcomeId = newId();
        await insertOutcome(trx, outcomeId, id, { ...outcome, closedAt: now() });
        if (details !== undefined) await insertCaseDetails(trx, outcomeId, details, sights);
        await insertKeptEvidence(trx, outcomeId, keptEvidence(evidence, picked?.text ?? '', now()));
        await updateJobRow(trx, id, { state: 'closed' });
      });
      return readJob(id);
    },

    async listJobs({ search, limit }) {
      const terms = searchTerms(search, now());
      if (terms.length === 0) return jobLines(db, { numbers: null, limit, binned: false });
      await catchUp.ready();
      const { numbers } = await findJobs(db, terms, { limit, order: 'newest' });
      return jobLines(db, { numbers, limit: null, binned: false });
    },

    async readJob({ id }) {
      const whole = await readWhole(db, id);
      if (whole === null) throw missing('job', id);
      return whole;
    },
  };
}

/** Running without a part is a test, not how a job ends. */
function refuseLeftOff(parts: readonly UndecidedPart[]): void {
  if (parts.length === 0) return;
  const names = (isTest: boolean) =>
    parts.filter((one) => one.isTest === isTest).map(({ part }) => part.designator);
  const say = (list: readonly string[], state: string) =>
    list.length === 0 ? [] : [`${list.join(', ')} ${list.length === 1 ? 'is' : 'are'} ${state}`];
  const said = [
    ...say(names(true), 'left off for a test'),
    ...say(names(false), 'lifted with nothing fitted there since'),
  ];
  throw new WakelineError({
    code: 'gate-closed',
    what: `${said.join(', ')}, and nobody decided what becomes of that`,
    where: 'closing the job',
    todo: 'Under Parts: fit one, put the same one back, or say that it stays off, why, and who agreed. Then close the job.',
  });
}

/** A board is not told to wake while what has to show it was neither done nor skipped. */
function refuseUnproved(items: readonly ChecklistItem[], parts: readonly Part[]): void {
  const open = openBeforeClosing(
    items,
    parts.some(({ action }) => action === 'fitted'),
  );
  if (open.length === 0) return;
  throw new WakelineError({
    code: 'gate-closed',
    what: `Not proved yet: ${open.map(({ title }) => `"${title}"`).join(', ')}`,
    where: 'closing the job as waking',
    todo: 'Do these steps, or skip them with a reason, or close it with another verdict.',
  });
}
