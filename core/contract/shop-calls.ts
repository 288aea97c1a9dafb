import { z } from 'zod';
import type { ShopFigures } from '../figures/shop-figures.ts';
import type { Job } from '../job/job.ts';
import { WAITING_FOR } from '../job/waiting-for.ts';
import {
  ANSWERED_HOW,
  type Customer,
  type JobTerms,
  type ShopSettings,
} from '../shop/job-terms.ts';
import { isCurrencyCode, MOST_MINOR } from '../shop/money.ts';
import { answers } from './call.ts';
import { id, line, note } from './fields.ts';

const minor = z.number().int().min(0).max(MOST_MINOR);
/** A day of the calendar, `YYYY-MM-DD`. */
const day = z.iso.date();

export const customerFields = z.object({
  name: line.min(1, 'write a name'),
  reach: line,
  note,
});

export const chargeFields = z.object({
  kind: z.enum(['part', 'time', 'other']),
  words: line,
  partId: id.nullable(),
  quantityMilli: z.number().int().min(0).max(1_000_000_000),
  minutes: z.number().int().min(0).max(1_000_000),
  unitMinor: minor,
});

/** Calls about customers, money, tags and figures: answered by the ledger worker. */
export const shopCalls = {
  readShop: answers<ShopSettings>()(z.object({})),
  /** Refused when it would change the currency of amounts that are written already. */
  saveShop: answers<ShopSettings>()(
    z.object({
      currency: z.string().refine(isCurrencyCode, 'three capital letters, as in EUR'),
      hourMinor: minor,
      warrantyDays: z.number().int().min(0).max(3_650),
    }),
  ),
  /** By name; every word of `search` must begin a word of the name or of the way to reach them. */
  listCustomers: answers<readonly Customer[]>()(
    z.object({ search: line, limit: z.number().int().min(1).max(500) }),
  ),
  saveCustomer: answers<Customer>()(z.object({ id: id.nullable(), fields: customerFields })),
  /** Forgets a customer everywhere; answers how many of their jobs stay, without a name. */
  eraseCustomer: answers<number>()(z.object({ id })),
  readTerms: answers<JobTerms>()(z.object({ jobId: id })),
  /** Gives a job to a customer, or to nobody. */
  giveCustomer: answers<JobTerms>()(z.object({ jobId: id, customerId: id.nullable() })),
  /** Lets a job wait, and says for what. */
  letWait: answers<Job>()(z.object({ jobId: id, waitingFor: z.enum(WAITING_FOR) })),
  /** A new quote waits for its answer; the job waits for approval. */
  addQuote: answers<JobTerms>()(z.object({ jobId: id, amountMinor: minor, words: line })),
  answerQuote: answers<JobTerms>()(
    z.object({
      quoteId: id,
      answer: z.enum(['approved', 'refused']),
      how: z.enum(ANSWERED_HOW),
      note: line,
    }),
  ),
  addCharge: answers<JobTerms>()(z.object({ jobId: id, charge: chargeFields })),
  dropCharge: answers<JobTerms>()(z.object({ chargeId: id })),
  setWarranty: answers<JobTerms>()(z.object({ jobId: id, until: day.nullable(), note: line })),
  /** The code of a job's bag tag; made the first time. */
  readTag: answers<string>()(z.object({ jobId: id })),
  /** The job of a scanned or typed code; throws `bad-input` and `not-found`. */
  findTag: answers<{ readonly jobId: string; readonly number: number }>()(z.object({ code: line })),
  /** Figures of the jobs closed from `first` to `last`, both days included. */
  readFigures: answers<ShopFigures>()(z.object({ first: day, last: day })),
} as const;
