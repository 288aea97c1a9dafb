import type { Handlers } from '../../core/contract/contract.ts';
import type { shopCalls } from '../../core/contract/shop-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import { shopFigures } from '../../core/figures/shop-figures.ts';
import { NO_SHOP_SETTINGS, type ShopSettings } from '../../core/shop/job-terms.ts';
import { isLikeTagCode, isTagCode, plainTagCode, shownTagCode } from '../../core/tags/tag-code.ts';
import { changeJobWith } from './change-job.ts';
import { customersLike, findCustomer, jobsOfCustomer } from './customer-store.ts';
import { dayStartMs } from './day-start.ts';
import { eraseCustomer } from './erase-customer.ts';
import { donorUse, figureCases } from './figure-cases.ts';
import { findJobRow, jobOfRow, updateJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { indexJob } from './search-index-store.ts';
import { readSetting, writeSetting } from './setting-store.ts';
import { jobOfTag, tagOfJob } from './tag-store.ts';
import { termsOfJob, writeTerms } from './terms-store.ts';

const SETTINGS_KEY = 'shop';

/** What the shop set once; nothing yet in a new ledger. */
export async function shopSettings(db: Db): Promise<ShopSettings> {
  const stored = (await readSetting(db, SETTINGS_KEY)) as Partial<ShopSettings> | undefined;
  return { ...NO_SHOP_SETTINGS, ...stored };
}

/** The window's calls about customers, money, tags and figures. */
export function createShopHandlers(context: LedgerContext): Handlers<typeof shopCalls> {
  const { db, newId, now } = context;

  const currencyOf = async (from: Db): Promise<string> => {
    const { currency } = await shopSettings(from);
    if (currency !== null) return currency;
    throw new WakelineError({
      code: 'bad-input',
      what: 'The shop has no currency yet',
      where: 'money of a job',
      todo: 'Set it once under Figures, Shop. Nothing was written.',
    });
  };

  const jobOfQuote = async (quoteId: string): Promise<string> => {
    const row = await db
      .selectFrom('quotes')
      .select('job_id')
      .where('id', '=', quoteId)
      .executeTakeFirst();
    if (row === undefined) throw missing('quote', quoteId);
    return row.job_id;
  };

  const change = async (jobId: string, how: (trx: Db) => Promise<void>) => {
    await changeJobWith(context, jobId, how);
    return termsOfJob(db, jobId);
  };

  return {
    readShop: () => shopSettings(db),

    saveShop: (settings) =>
      db.transaction().execute(async (trx) => {
        const before = await shopSettings(trx);
        if (before.currency !== null && before.currency !== settings.currency) {
          await refuseNewCurrency(trx, before.currency);
        }
        await writeSetting(trx, SETTINGS_KEY, settings);
        return settings;
      }),

    listCustomers: ({ search, limit }) => customersLike(db, search, limit),

    async saveCustomer({ id, fields }) {
      const at = now();
      const known = id ?? newId();
      const jobs = id === null ? [] : await jobsOfCustomer(db, id);
      await db.transaction().execute(async (trx) => {
        if (id === null) {
          const row = { ...fields, id: known, created_at: at, updated_at: at };
          await trx.insertInto('customers').values(row).execute();
          return;
        }
        if ((await findCustomer(trx, id)) === null) throw missing('customer', id);
        await trx
          .updateTable('customers')
          .set({ ...fields, updated_at: at })
          .where('id', '=', id)
          .execute();
        for (const jobId of jobs) {
          await updateJobRow(trx, jobId, { customer: fields.name });
          await indexJob(trx, jobId);
        }
      });
      for (const jobId of jobs) context.jobChanged(jobId);
      return (await findCustomer(db, known))!;
    },

    async eraseCustomer({ id }) {
      if ((await findCustomer(db, id)) === null) throw missing('customer', id);
      const jobs = await eraseCustomer(db, id);
      for (const jobId of jobs) context.jobChanged(jobId);
      return jobs.length;
    },

    readTerms: ({ jobId }) => termsOfJob(db, jobId),

    giveCustomer: ({ jobId, customerId }) =>
      change(jobId, async (trx) => {
        const customer = customerId === null ? null : await findCustomer(trx, customerId);
        if (customerId !== null && customer === null) throw missing('customer', customerId);
        await writeTerms(trx, jobId, { customer_id: customerId });
        await updateJobRow(trx, jobId, { customer: customer?.name ?? '' });
      }),

    async letWait({ jobId, waitingFor }) {
      await changeJobWith(context, jobId, async (trx) => {
        await writeTerms(trx, jobId, { waiting_for: waitingFor });
        await updateJobRow(trx, jobId, { state: 'waiting' });
      });
      return jobOfRow(db, (await findJobRow(db, jobId))!);
    },

    addQuote: ({ jobId, amountMinor, words }) =>
      change(jobId, async (trx) => {
        const row = (await findJobRow(trx, jobId))!;
        await trx
          .insertInto('quotes')
          .values({
            id: newId(),
            job_id: jobId,
            amount_minor: amountMinor,
            currency: await currencyOf(trx),
            words,
            made_at: now(),
            answer: 'open',
            answered_at: null,
            answered_how: '',
            answer_note: '',
          })
          .execute();
        if (row.state === 'closed') return;
        await writeTerms(trx, jobId, { waiting_for: 'approval' });
        await updateJobRow(trx, jobId, { state: 'waiting' });
      }),

    async answerQuote({ quoteId, answer, how, note }) {
      const jobId = await jobOfQuote(quoteId);
      return change(jobId, async (trx) => {
        await trx
          .updateTable('quotes')
          .set({ answer, answered_at: now(), answered_how: how, answer_note: note })
          .where('id', '=', quoteId)
          .execute();
        const { waitingFor } = await termsOfJob(trx, jobId);
        // An answer ends the waiting for one; what else the job waits for goes on.
        if (waitingFor !== 'approval') return;
        await writeTerms(trx, jobId, { waiting_for: '' });
        await updateJobRow(trx, jobId, { state: 'open' });
      });
    },

    addCharge: ({ jobId, charge }) =>
      change(jobId, async (trx) => {
        await trx
          .insertInto('charges')
          .values({
            id: newId(),
            job_id: jobId,
            kind: charge.kind,
            words: charge.words,
            part_id: charge.partId,
            quantity_milli: charge.kind === 'time' ? 0 : charge.quantityMilli,
            minutes: charge.kind === 'time' ? charge.minutes : 0,
            unit_minor: charge.unitMinor,
            currency: await currencyOf(trx),
            added_at: now(),
          })
          .execute();
      }),

    async dropCharge({ chargeId }) {
      const row = await db
        .selectFrom('charges')
        .select('job_id')
        .where('id', '=', chargeId)
        .executeTakeFirst();
      if (row === undefined) throw missing('charge', chargeId);
      return change(row.job_id, async (trx) => {
        await trx.deleteFrom('charges').where('id', '=', chargeId).execute();
      });
    },

    setWarranty: ({ jobId, until, note }) =>
      change(jobId, (trx) =>
        writeTerms(trx, jobId, { warranty_until: until, warranty_note: note }),
      ),

    async readTag({ jobId }) {
      if ((await findJobRow(db, jobId)) === undefined) throw missing('job', jobId);
      const code = await db
        .transaction()
        .execute((trx) => tagOfJob(trx, jobId, { at: now(), random: context.random }));
      if (code !== null) return code;
      throw new WakelineError({
        code: 'internal',
        what: 'No code for a bag tag is left',
        where: `job ${jobId}`,
        todo: 'Write the job number on the bag by hand.',
      });
    },

    async findTag({ code }) {
      const plain = plainTagCode(code);
      if (isTagCode(plain)) {
        const found = await jobOfTag(db, plain);
        if (found !== null) return found;
        throw new WakelineError({
          code: 'not-found',
          what: 'No job in the book has this bag tag',
          where: `tag ${shownTagCode(plain)}`,
          todo: 'Look in the bin; or the bag is from another ledger. The job number stands on the tag.',
        });
      }
      throw new WakelineError({
        code: 'bad-input',
        what: isLikeTagCode(plain)
          ? 'The check digit of this code does not fit: a digit is wrong, or two are swapped'
          : 'This is not the code of a bag tag',
        where: code,
        todo: 'Scan it again, or type the eight digits under the bars.',
      });
    },

    async readFigures({ first, last }) {
      const fromMs = dayStartMs(first, false);
      const toMs = dayStartMs(last, true);
      if (fromMs >= toMs) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'The period ends before it begins',
          where: `${first} to ${last}`,
          todo: 'Turn the two days round.',
        });
      }
      return shopFigures({
        cases: await figureCases(db),
        donors: await donorUse(db, fromMs, toMs),
        fromMs,
        toMs,
        nowMs: now(),
      });
    },
  };
}

async function refuseNewCurrency(db: Db, before: string): Promise<void> {
  const quotes = await db.selectFrom('quotes').select('id').limit(1).execute();
  const charges = await db.selectFrom('charges').select('id').limit(1).execute();
  if (quotes.length + charges.length === 0) return;
  throw new WakelineError({
    code: 'bad-input',
    what: `Amounts are written in ${before} already`,
    where: "the shop's currency",
    todo: `Keep ${before}. To count in another currency begin a new ledger.`,
  });
}
