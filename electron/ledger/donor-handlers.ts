import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { partCalls } from '../../core/contract/part-calls.ts';
import { type DonorBoard, NO_DETAILS } from '../../core/donors/donor-board.ts';
import { findDonors } from '../../core/donors/find-donors.ts';
import { partFacts } from '../../core/donors/part-facts.ts';
import { readModelParts } from '../../core/donors/read-model-parts.ts';
import { readPartValue } from '../../core/donors/spec-of-part.ts';
import { WakelineError } from '../../core/errors.ts';
import { boardKey } from '../../core/job/same-thing.ts';
import { parsePart } from '../../core/parts/parse-part.ts';
import { changeJobWith } from './change-job.ts';
import { donorBoards, modelParts, writeModelParts } from './donor-store.ts';
import { findJobRow } from './job-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { detailsOfJob, writeDetails } from './part-detail-store.ts';
import { findPart, partsOfJob } from './part-store.ts';

/** The window's calls about details of parts and about donor boards. */
export function createDonorHandlers(
  context: LedgerContext,
  addPart: Handlers<typeof jobCalls>['addPart'],
): Handlers<typeof partCalls> {
  const { db, newId, now } = context;

  const factsOf = async (jobId: string) =>
    partFacts(await partsOfJob(db, jobId), await detailsOfJob(db, jobId));

  const donorOf = async (id: string): Promise<DonorBoard> => {
    const donor = (await donorBoards(db)).find((one) => one.id === id);
    if (donor === undefined) throw missing('donor board', id);
    return donor;
  };

  const jobKey = async (jobId: string | null): Promise<string | null> =>
    jobId === null ? null : ((await findJobRow(db, jobId))?.board_key ?? null);

  const wantedPart = async (partId: string) => {
    const part = await findPart(db, partId);
    if (part === undefined) throw missing('part', partId);
    const details = (await detailsOfJob(db, part.jobId)).get(partId)?.details ?? NO_DETAILS;
    const read = readPartValue(part);
    const fault = read.faults[0];
    if (fault !== undefined) throw unread(part.value, fault);
    return {
      spec: read.spec,
      designator: part.designator,
      boardKey: await jobKey(part.jobId),
      place: {
        railV: details.railV,
        role: details.role,
        critical: details.critical,
        roomMm: null,
      },
    };
  };

  const typedPart = async (text: string, jobId: string | null) => {
    const read = parsePart(text);
    const fault = read.faults[0];
    if (fault !== undefined) throw unread(text, fault);
    return {
      spec: read.spec,
      designator: read.spec.designator ?? '',
      boardKey: await jobKey(jobId),
      place: { railV: null, role: 'other' as const, critical: null, roomMm: null },
    };
  };

  return {
    readPartFacts: ({ jobId }) => factsOf(jobId),

    async keepPartDetails({ partId, details }) {
      const part = await findPart(db, partId);
      if (part === undefined) throw missing('part', partId);
      if (details.leftOff === 'for-good' && details.decision.trim().length < 3) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'A part may stay off only with a reason',
          where: `part ${part.designator}`,
          todo: 'Say why the board does without it: one of a bulk bank, not fitted on later boards.',
        });
      }
      await changeJobWith(context, part.jobId, (trx) => writeDetails(trx, part, details));
      return (await factsOf(part.jobId)).find((facts) => facts.partId === partId)!;
    },

    listDonors: () => donorBoards(db),

    async saveDonor({ id, fields }) {
      const columns = {
        board_model: fields.boardModel,
        board_key: boardKey(fields.boardModel) ?? '',
        shelf: fields.shelf,
        note: fields.note,
      };
      if (id !== null) {
        await donorOf(id);
        await db.updateTable('donor_boards').set(columns).where('id', '=', id).execute();
        return donorOf(id);
      }
      const fresh = newId();
      await db
        .insertInto('donor_boards')
        .values({ id: fresh, ...columns, added_at: now(), gone_at: null })
        .execute();
      return donorOf(fresh);
    },

    async scrapDonor({ id }) {
      await donorOf(id);
      await db.updateTable('donor_boards').set({ gone_at: now() }).where('id', '=', id).execute();
      return null;
    },

    readModelParts: ({ boardModel }) => modelParts(db, boardKey(boardModel) ?? ''),

    async saveModelParts({ boardModel, table, knownFrom }) {
      const parts = readModelParts(table, knownFrom);
      const key = boardKey(boardModel) ?? '';
      await db.transaction().execute((trx) => writeModelParts(trx, key, parts));
      return modelParts(db, key);
    },

    async findDonor(asked) {
      const wanted =
        'partId' in asked
          ? await wantedPart(asked.partId)
          : await typedPart(asked.text, asked.jobId);
      return findDonors(wanted, await donorBoards(db), boardKey);
    },

    async takeFromDonor({ donorId, designator, jobId, place }) {
      const donor = await donorOf(donorId);
      const key = designator.toUpperCase();
      const part = donor.left.find((one) => one.designator === key);
      if (part === undefined) {
        const gone = donor.taken.find((one) => one.designator === key);
        throw new WakelineError({
          code: 'bad-input',
          what:
            gone === undefined
              ? `${key} is not listed on this board`
              : `${key} was taken already${gone.jobNumber === null ? '' : `, into job ${gone.jobNumber}`}`,
          where: `donor ${donor.boardModel}, shelf ${donor.shelf}`,
          todo: 'Nothing was changed. Choose another part, or list it for its board model first.',
        });
      }
      // The take comes first: its unique key lets nobody take a part twice, not even at once.
      const takeId = newId();
      await db
        .insertInto('donor_takes')
        .values({
          id: takeId,
          donor_id: donorId,
          designator: key,
          text: part.text,
          job_id: jobId,
          part_id: null,
          taken_at: now(),
        })
        .execute();
      if (jobId === null) return null;
      const where = donor.shelf === '' ? '' : `, shelf ${donor.shelf}`;
      try {
        const fitted = await addPart({
          jobId,
          part: {
            action: 'fitted',
            designator: place === '' ? key : place,
            kind: '',
            value: part.text,
            rail: part.rail,
            stateFound: '',
            from: `donor ${donor.boardModel} ${key}${where}`.slice(0, 200),
          },
        });
        await db
          .updateTable('donor_takes')
          .set({ part_id: fitted.id })
          .where('id', '=', takeId)
          .execute();
        const isSame =
          boardKey(donor.boardModel) === (await jobKey(jobId)) &&
          key === fitted.designator.toUpperCase();
        await writeDetails(db, fitted, {
          ...NO_DETAILS,
          knownFrom: isSame ? 'same-place' : part.knownFrom,
        });
        return fitted;
      } catch (thrown) {
        await db.deleteFrom('donor_takes').where('id', '=', takeId).execute();
        throw thrown;
      }
    },
  };
}

function unread(
  text: string,
  fault: { readonly what: string; readonly todo: string; readonly at: number },
): WakelineError {
  return new WakelineError({
    code: 'bad-input',
    what: fault.what,
    where: `${text}, character ${fault.at + 1}`,
    todo: fault.todo,
  });
}
