import type { Handlers } from '../../core/contract/contract.ts';
import type { partCalls } from '../../core/contract/part-calls.ts';
import { type DonorBoard, NO_DETAILS } from '../../core/donors/donor-board.ts';
import { findDonors } from '../../core/donors/find-donors.ts';
import { partFacts } from '../../core/donors/part-facts.ts';
import { readModelParts } from '../../core/donors/read-model-parts.ts';
import { kindOfPart, readPartValue } from '../../core/donors/spec-of-part.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Part } from '../../core/job/job.ts';
import { boardKey } from '../../core/job/same-thing.ts';
import { parsePart } from '../../core/parts/parse-part.ts';
import { UNKNOWN_PART } from '../../core/parts/part-spec.ts';
import { changeJobWith } from './change-job.ts';
import {
  donorBoards,
  findTake,
  insertTake,
  modelParts,
  moveTakeBack,
  writeModelParts,
} from './donor-store.ts';
import { judgeJob, writePart } from './fit-part.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { detailsOfJob, writeDetails } from './part-detail-store.ts';
import { findPart, partsOfJob } from './part-store.ts';

/** The window's calls about details of parts and about donor boards. */
export function createDonorHandlers(context: LedgerContext): Handlers<typeof partCalls> {
  const { db, newId, now } = context;

  const factsOf = async (jobId: string) =>
    partFacts(await partsOfJob(db, jobId), await detailsOfJob(db, jobId));

  const donorOf = async (from: Db, id: string): Promise<DonorBoard> => {
    const donor = (await donorBoards(from)).find((one) => one.id === id);
    if (donor === undefined) throw missing('donor board', id);
    return donor;
  };

  const jobKey = async (from: Db, jobId: string | null): Promise<string | null> =>
    jobId === null ? null : ((await findJobRow(from, jobId))?.board_key ?? null);

  /** A fitted part came off again: its place asks anew what becomes of it. */
  const liftAgain = async (trx: Db, part: Part, stateFound: string): Promise<void> => {
    const job = await findJobRow(trx, part.jobId);
    if (job?.state === 'closed') {
      throw new WakelineError({
        code: 'bad-input',
        what: `${part.designator} is part of job ${job.number}, which is closed`,
        where: `job ${job.number}`,
        todo: 'Open that job again first. Nothing was changed.',
      });
    }
    const { designator, kind, value, rail } = part;
    await writePart(trx, context, {
      jobId: part.jobId,
      fields: { action: 'lifted', designator, kind, value, rail, stateFound, from: '' },
      details: NO_DETAILS,
      putBackOf: null,
    });
  };

  const wantedPart = async (partId: string) => {
    const part = await findPart(db, partId);
    if (part === undefined) throw missing('part', partId);
    const details = (await detailsOfJob(db, part.jobId)).get(partId)?.details ?? NO_DETAILS;
    const key = await jobKey(db, part.jobId);
    // A part written down in a word has no value yet: its board model's list may tell it.
    const listed =
      key === null || part.value.trim() !== ''
        ? undefined
        : (await modelParts(db, key)).find(
            (one) => one.designator === part.designator.trim().toUpperCase(),
          );
    const value = part.value.trim() || (listed?.text ?? '');
    const read = value === '' ? null : readPartValue({ ...part, value });
    const fault = read?.faults[0];
    if (fault !== undefined) throw unread(value, fault);
    return {
      spec: read?.spec ?? { ...UNKNOWN_PART, kind: kindOfPart(part) },
      designator: part.designator,
      boardKey: key,
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
      boardKey: await jobKey(db, jobId),
      place: { railV: null, role: 'other' as const, critical: null, roomMm: null },
    };
  };

  return {
    readPartFacts: ({ jobId }) => factsOf(jobId),

    async keepPartDetails({ partId, details }) {
      const part = await findPart(db, partId);
      if (part === undefined) throw missing('part', partId);
      const isSaid = details.decision.trim().length >= 3 && details.agreedBy.trim() !== '';
      if (details.leftOff === 'for-good' && !isSaid) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'A part may stay off only with a reason and the customer’s agreement',
          where: `part ${part.designator}`,
          todo: 'Say why the board does without it (one of a bulk bank, not fitted on later boards) and who agreed.',
        });
      }
      await changeJobWith(context, part.jobId, async (trx) => {
        const before = (await detailsOfJob(trx, part.jobId)).get(partId)?.details ?? NO_DETAILS;
        if (details.leftOff === 'put-back' && before.leftOff !== 'put-back') {
          throw new WakelineError({
            code: 'bad-input',
            what: 'Putting a part back is soldering it: it is written as fitted',
            where: `part ${part.designator}`,
            todo: 'Use "Put back" on its line. Nothing was changed.',
          });
        }
        await writeDetails(trx, part, details);
        await judgeJob(trx, part.jobId);
      });
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
        await donorOf(db, id);
        await db.updateTable('donor_boards').set(columns).where('id', '=', id).execute();
        return donorOf(db, id);
      }
      const fresh = newId();
      await db
        .insertInto('donor_boards')
        .values({ id: fresh, ...columns, added_at: now(), gone_at: null })
        .execute();
      return donorOf(db, fresh);
    },

    async scrapDonor({ id }) {
      await donorOf(db, id);
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
      const take = async (trx: Db): Promise<Part | null> => {
        const donor = await donorOf(trx, donorId);
        const key = designator.toUpperCase();
        const part = donor.left.find((one) => one.designator === key);
        if (part === undefined) throw notThere(donor, key);
        const gone = {
          id: newId(),
          donor_id: donorId,
          designator: key,
          text: part.text,
          job_id: jobId,
          taken_at: now(),
        };
        if (jobId === null) {
          await insertTake(trx, { ...gone, part_id: null });
          return null;
        }
        const at = place === '' ? key : place;
        const isSame =
          boardKey(donor.boardModel) === (await jobKey(trx, jobId)) && key === at.toUpperCase();
        const where = donor.shelf === '' ? '' : `, shelf ${donor.shelf}`;
        const fitted = await writePart(trx, context, {
          jobId,
          fields: {
            action: 'fitted',
            designator: at,
            kind: '',
            value: part.text,
            rail: part.rail,
            stateFound: '',
            from: `donor ${donor.boardModel} ${key}${where}`.slice(0, 200),
          },
          details: { ...NO_DETAILS, knownFrom: isSame ? 'same-place' : part.knownFrom },
          putBackOf: null,
        });
        await insertTake(trx, { ...gone, part_id: fitted.id });
        return fitted;
      };
      return jobId === null ? db.transaction().execute(take) : changeJobWith(context, jobId, take);
    },

    async returnToDonor({ takeId, why }) {
      const found = await findTake(db, takeId);
      if (found === undefined) throw missing('take', takeId);
      const giveBack = async (trx: Db): Promise<DonorBoard> => {
        const take = await findTake(trx, takeId);
        if (take === undefined) throw missing('take', takeId);
        const { designator, text, donor_id, job_id, taken_at } = take;
        const part = take.part_id === null ? undefined : await findPart(trx, take.part_id);
        if (part !== undefined) await liftAgain(trx, part, `${why}; went back to its donor board`);
        const back = { donor_id, designator, text, job_id, taken_at, why };
        await moveTakeBack(trx, { id: newId(), ...back, returned_at: now() }, takeId);
        return donorOf(trx, donor_id);
      };
      return found.job_id === null
        ? db.transaction().execute(giveBack)
        : changeJobWith(context, found.job_id, giveBack);
    },
  };
}

function notThere(donor: DonorBoard, key: string): WakelineError {
  const gone = donor.taken.find((one) => one.designator === key);
  const into = gone === undefined || gone.jobNumber === null ? '' : `, into job ${gone.jobNumber}`;
  return new WakelineError({
    code: 'bad-input',
    what:
      gone === undefined ? `${key} is not listed on this board` : `${key} was taken already${into}`,
    where: `donor ${donor.boardModel}, shelf ${donor.shelf}`,
    todo: 'Nothing was changed. Choose another part, or list it for its board model first.',
  });
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
