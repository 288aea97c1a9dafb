import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import { type LeftOff, NO_DETAILS } from '../../core/donors/donor-board.ts';
import { placeState } from '../../core/donors/part-facts.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Part } from '../../core/job/job.ts';
import { boardKey } from '../../core/job/same-thing.ts';
import { type QuickPart, readPartLine } from '../../core/parts/read-part-line.ts';
import { changeJobWith } from './change-job.ts';
import { modelParts, takeOfPart } from './donor-store.ts';
import { followPart, judgeJob, writePart } from './fit-part.ts';
import { checklistOf } from './item-handlers.ts';
import { updateItem } from './item-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { detailsOfJob, readSpecAgain, writeDetails } from './part-detail-store.ts';
import { deletePart, findPart, partsOfJob, updatePart } from './part-store.ts';

type PartHandlers = Handlers<
  Pick<typeof jobCalls, 'addPart' | 'changePart' | 'quickPart' | 'putPartBack' | 'forgetPart'>
>;

/** The window's calls about parts. A fitted part asks for the same points again and a second run. */
export function createPartHandlers(context: LedgerContext): PartHandlers {
  const { db } = context;

  const partOf = async (id: string): Promise<Part> => {
    const part = await findPart(db, id);
    if (part === undefined) throw missing('part', id);
    return part;
  };

  /** The same part, where it was: the points are asked again, because it was soldered. */
  const putBack = async (trx: Db, lifted: Part): Promise<Part> => {
    const kept = await detailsOfJob(trx, lifted.jobId);
    const place = placeState(lifted, await partsOfJob(trx, lifted.jobId), kept);
    if (lifted.action !== 'lifted' || place === 'fitted' || place === 'put-back') {
      throw new WakelineError({
        code: 'bad-input',
        what: `${lifted.designator} is not off the board`,
        where: `part ${lifted.designator}`,
        todo: 'Nothing was changed. Write down what was lifted since first.',
      });
    }
    const before = kept.get(lifted.id)?.details ?? NO_DETAILS;
    await writeDetails(trx, lifted, { ...before, leftOff: 'put-back' });
    const { designator, kind, value, rail } = lifted;
    return writePart(trx, context, {
      jobId: lifted.jobId,
      fields: {
        action: 'fitted',
        designator,
        kind,
        value,
        rail,
        stateFound: '',
        from: 'the same part, put back',
      },
      details: NO_DETAILS,
      putBackOf: lifted.id,
    });
  };

  /** One part of a quick line; what nobody typed is taken from the board model's list. */
  const writeQuick = async (trx: Db, jobId: string, quick: QuickPart): Promise<Part> => {
    if (quick.isBack) {
      const parts = await partsOfJob(trx, jobId);
      const kept = await detailsOfJob(trx, jobId);
      const isOff = (part: Part) =>
        part.action === 'lifted' &&
        part.designator.trim().toUpperCase() === quick.designator &&
        !['fitted', 'put-back'].includes(placeState(part, parts, kept));
      const lifted = parts.findLast(isOff);
      if (lifted !== undefined) return putBack(trx, lifted);
    }
    const key = boardKey((await findJobRow(trx, jobId))?.board_model ?? null);
    const listed =
      key === null || quick.action === 'fitted'
        ? undefined
        : (await modelParts(trx, key)).find((one) => one.designator === quick.designator);
    const leftOff: LeftOff = quick.isTest ? 'for-a-test' : 'no';
    return writePart(trx, context, {
      jobId,
      fields: {
        action: quick.action,
        designator: quick.designator,
        kind: '',
        value: quick.value || (listed?.text ?? ''),
        rail: quick.rail || (listed?.rail ?? ''),
        stateFound: quick.stateFound,
        from: quick.from,
      },
      details: {
        ...NO_DETAILS,
        leftOff,
        knownFrom: quick.value === '' ? (listed?.knownFrom ?? 'unknown') : 'unknown',
      },
      putBackOf: null,
    });
  };

  return {
    addPart: ({ jobId, part: fields }) =>
      changeJobWith(context, jobId, (trx) =>
        writePart(trx, context, { jobId, fields, details: NO_DETAILS, putBackOf: null }),
      ),

    quickPart: ({ jobId, line }) =>
      changeJobWith(context, jobId, async (trx) => {
        const written: Part[] = [];
        for (const quick of readPartLine(line)) {
          written.push(await writeQuick(trx, jobId, quick));
        }
        if (written.length > 0) return written;
        throw new WakelineError({
          code: 'bad-input',
          what: 'The line names no part',
          where: line,
          todo: 'Type its designator, or where it sat: C1207 lifted.',
        });
      }),

    async changePart({ id, part: fields }) {
      const before = await partOf(id);
      return changeJobWith(context, before.jobId, async (trx) => {
        await updatePart(trx, id, fields);
        const part: Part = { ...before, ...fields };
        await readSpecAgain(trx, part);
        if (before.action !== part.action) await followPart(trx, context, part);
        await judgeJob(trx, part.jobId);
        return part;
      });
    },

    async putPartBack({ id }) {
      const lifted = await partOf(id);
      return changeJobWith(context, lifted.jobId, (trx) => putBack(trx, lifted));
    },

    async forgetPart({ id }) {
      const part = await partOf(id);
      await changeJobWith(context, part.jobId, async (trx) => {
        if ((await takeOfPart(trx, id)) !== undefined) {
          throw new WakelineError({
            code: 'bad-input',
            what: `${part.designator} came from a donor board`,
            where: `part ${part.designator}`,
            todo: 'Put it back on its donor board instead. Nothing was changed.',
          });
        }
        await reviveLifted(trx, part);
        await deletePart(trx, id);
        const left = await partsOfJob(trx, part.jobId);
        const step = part.action === 'lifted' ? 'part-lifted' : 'part-fitted';
        const item = (await checklistOf(trx, part.jobId)).find((one) => one.step === step);
        if (item?.state === 'done' && !left.some(({ action }) => action === part.action)) {
          await updateItem(trx, item.id, { state: 'open', at: null });
        }
        await judgeJob(trx, part.jobId);
      });
      return null;
    },
  };
}

/** The lifted part that a forgotten line had put back is off again, with nothing decided. */
async function reviveLifted(db: Db, part: Part): Promise<void> {
  const kept = await detailsOfJob(db, part.jobId);
  const liftedId = kept.get(part.id)?.putBackOf ?? null;
  const lifted = liftedId === null ? undefined : await findPart(db, liftedId);
  const details = lifted === undefined ? undefined : kept.get(lifted.id)?.details;
  if (lifted === undefined || details === undefined) return;
  await writeDetails(db, lifted, { ...details, leftOff: 'no' });
}
