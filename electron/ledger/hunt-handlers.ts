import { injectionOfHunt } from '../../core/cases/injection-of-hunt.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { HuntPointFields, HuntWhole, huntCalls } from '../../core/contract/hunt-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import { boardWithKnownGood } from '../../core/rails/learn-known-good.ts';
import type { Hunt } from '../../core/shorts/hunt.ts';
import { huntGradient } from '../../core/shorts/hunt-gradient.ts';
import { planInjection } from '../../core/shorts/plan-injection.ts';
import { gradientFinding } from '../../core/shorts/short-findings.ts';
import { findBoard } from './board-store.ts';
import { changeJobWith } from './change-job.ts';
import { modelParts } from './donor-store.ts';
import { findHunt, huntIdOfPoint, huntsOfJob, pointOfHuntReading } from './hunt-store.ts';
import type { HuntPointRow } from './hunt-tables.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { goodReadingsOfBoard, railReadingsOfJob } from './rail-reading-store.ts';

/** What is read against until somebody names another place. */
const USUAL_REFERENCE = 'ground at the negative lead';
const MOST_POINTS = 100;

const withGradient = (hunt: Hunt): HuntWhole => ({ hunt, found: huntGradient(hunt) });

/** The window's calls about hunts for a short. */
export function createHuntHandlers(context: LedgerContext): Handlers<typeof huntCalls> {
  const { db, newId, now } = context;

  const huntOf = async (id: string): Promise<Hunt> => {
    const hunt = await findHunt(db, id);
    if (hunt === null) throw missing('hunt', id);
    return hunt;
  };
  const huntOfPoint = async (pointId: string): Promise<Hunt> => {
    const id = await huntIdOfPoint(db, pointId);
    if (id === null) throw missing('hunt point', pointId);
    return huntOf(id);
  };
  const refuse = (what: string, hunt: Hunt, todo: string): never => {
    throw new WakelineError({ code: 'bad-input', what, where: `hunt along ${hunt.rail}`, todo });
  };
  /** Changes something of a hunt in its job's own transaction. */
  const change = async (hunt: Hunt, how: (trx: Db) => Promise<unknown>): Promise<HuntWhole> => {
    await changeJobWith(context, hunt.jobId, how);
    return withGradient(await huntOf(hunt.id));
  };
  const mustBeNew = (hunt: Hunt, name: string, besides: string | null) => {
    const key = name.toLowerCase();
    const isThere = hunt.points.some((one) => one.id !== besides && one.name.toLowerCase() === key);
    if (isThere) refuse(`${name} is there already`, hunt, 'Give the point a name of its own.');
  };
  const boardOf = async (jobId: string) => {
    const job = await findJobRow(db, jobId);
    if (job === undefined) throw missing('job', jobId);
    const stated = await findBoard(db, job.board_key);
    const board =
      stated === null
        ? null
        : boardWithKnownGood(stated, await goodReadingsOfBoard(db, job.board_key));
    return { job, board };
  };

  return {
    listHunts: async ({ jobId }) => (await huntsOfJob(db, jobId)).map(withGradient),

    async beginHunt({ jobId, rail }) {
      const { board } = await boardOf(jobId);
      const id = newId();
      const known = board?.rails.find(({ name }) => name.toLowerCase() === rail.toLowerCase());
      const touched = (known?.points ?? []).filter(
        ({ role, cost }) => role === 'output' && cost !== null,
      );
      await changeJobWith(context, jobId, async (trx) => {
        await trx
          .insertInto('hunts')
          .values({
            id,
            job_id: jobId,
            rail: known?.name ?? rail,
            reference: USUAL_REFERENCE,
            lead_ohm: null,
            lead_from: 'unknown',
            meter_sigma_v: null,
            most_a: null,
            ratings_json: '[]',
            began_at: now(),
            concluded_at: null,
            finding_json: null,
          })
          .execute();
        const names = [...new Set(touched.map(({ name }) => name))];
        const points = names.map((name, position) => ({
          ...pointColumns({ name, alongMm: null, onPicture: null }),
          ...{ id: newId(), hunt_id: id, position },
        }));
        if (points.length > 0) await trx.insertInto('hunt_points').values(points).execute();
      });
      return withGradient(await huntOf(id));
    },

    async changeHunt({ huntId, reference, lead, meterSigmaV, mostA, ratings }) {
      const hunt = await huntOf(huntId);
      return change(hunt, (trx) =>
        trx
          .updateTable('hunts')
          .set({
            reference: reference ?? hunt.reference,
            ...(lead === undefined
              ? {}
              : { lead_ohm: lead?.ohm ?? null, lead_from: lead?.from ?? 'unknown' }),
            ...(meterSigmaV === undefined ? {} : { meter_sigma_v: meterSigmaV }),
            ...(mostA === undefined ? {} : { most_a: mostA }),
            ...(ratings === undefined ? {} : { ratings_json: JSON.stringify(ratings) }),
          })
          .where('id', '=', huntId)
          .execute(),
      );
    },

    async deleteHunt({ huntId }) {
      const { jobId } = await huntOf(huntId);
      await changeJobWith(context, jobId, (trx) =>
        trx.deleteFrom('hunts').where('id', '=', huntId).execute(),
      );
      return null;
    },

    async addHuntPoint({ huntId, point }) {
      const hunt = await huntOf(huntId);
      mustBeNew(hunt, point.name, null);
      if (hunt.points.length >= MOST_POINTS) {
        refuse(
          `${MOST_POINTS} points are on it already`,
          hunt,
          'Take points away that tell nothing.',
        );
      }
      const last = await db
        .selectFrom('hunt_points')
        .select((eb) => eb.fn.max('position').as('position'))
        .where('hunt_id', '=', huntId)
        .executeTakeFirst();
      const position = (last?.position ?? -1) + 1;
      const row = { id: newId(), hunt_id: huntId, position, ...pointColumns(point) };
      return change(hunt, (trx) => trx.insertInto('hunt_points').values(row).execute());
    },

    async changeHuntPoint({ pointId, point }) {
      const hunt = await huntOfPoint(pointId);
      mustBeNew(hunt, point.name, pointId);
      return change(hunt, (trx) =>
        trx.updateTable('hunt_points').set(pointColumns(point)).where('id', '=', pointId).execute(),
      );
    },

    async removeHuntPoint({ pointId }) {
      const hunt = await huntOfPoint(pointId);
      return change(hunt, (trx) =>
        trx.deleteFrom('hunt_points').where('id', '=', pointId).execute(),
      );
    },

    async addHuntReading({ pointId, volts, decimals, amps, source }) {
      const hunt = await huntOfPoint(pointId);
      const row = { id: newId(), point_id: pointId, volts, decimals, amps, source };
      return change(hunt, (trx) =>
        trx
          .insertInto('hunt_readings')
          .values({ ...row, taken_at: now() })
          .execute(),
      );
    },

    async forgetHuntReading({ readingId }) {
      const pointId = await pointOfHuntReading(db, readingId);
      if (pointId === null) throw missing('reading', readingId);
      return change(await huntOfPoint(pointId), (trx) =>
        trx.deleteFrom('hunt_readings').where('id', '=', readingId).execute(),
      );
    },

    async planHunt({ huntId, supply, cellAttached }) {
      const hunt = await huntOf(huntId);
      const { job, board } = await boardOf(hunt.jobId);
      const input = injectionOfHunt({
        hunt,
        board,
        readings: board === null ? [] : (await railReadingsOfJob(db, hunt.jobId, board)).onRails,
        parts: job.board_key === null ? [] : await modelParts(db, job.board_key),
        cellAttached,
        supply: { leastV: 0, ...supply },
      });
      const { reach, joints, ohmToGround, isCore } = input;
      return { plan: planInjection(input), reach, joints, ohmToGround, isCore };
    },

    async concludeHunt({ huntId }) {
      const hunt = await huntOf(huntId);
      const { gradient, columns } = huntGradient(hunt);
      const { firstA } = columns;
      if (gradient === null || firstA === null) {
        return refuse(
          'Fewer than two points are read with current flowing',
          hunt,
          'Take millivolts at two points or more. Nothing was kept.',
        );
      }
      const from = columns.points.flatMap(({ first }) =>
        first === null ? [] : [{ kind: 'reading' as const, id: first.id }],
      );
      const finding = gradientFinding(hunt.rail, gradient, firstA, from, now());
      return change(hunt, (trx) =>
        trx
          .updateTable('hunts')
          .set({ finding_json: JSON.stringify(finding), concluded_at: finding.at })
          .where('id', '=', huntId)
          .execute(),
      );
    },
  };
}

function pointColumns(
  point: HuntPointFields,
): Pick<HuntPointRow, 'name' | 'along_mm' | 'photo_id' | 'photo_x' | 'photo_y'> {
  return {
    name: point.name,
    along_mm: point.alongMm,
    photo_id: point.onPicture?.pictureId ?? null,
    photo_x: point.onPicture?.x ?? null,
    photo_y: point.onPicture?.y ?? null,
  };
}
