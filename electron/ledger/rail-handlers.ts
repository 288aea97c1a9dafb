import { openBeforeOhms } from '../../core/checklist/gates.ts';
import type { boardCalls, MeterFacts } from '../../core/contract/board-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Reading } from '../../core/job/job.ts';
import { walkJob } from '../../core/rails/job-walk.ts';
import { layOutRails } from '../../core/rails/lay-out-rails.ts';
import { boardWithKnownGood } from '../../core/rails/learn-known-good.ts';
import type { MeterAccuracy, RailReading } from '../../core/rails/rail-reading.ts';
import { statesToPick } from '../../core/rails/shop-states.ts';
import { readMeterFacts, readShopStates } from './board-handlers.ts';
import { findBoard } from './board-store.ts';
import { changeJobWith } from './change-job.ts';
import { createAdvice } from './create-advice.ts';
import { drawOfJob } from './draw-of-job.ts';
import { checklistOf } from './item-handlers.ts';
import { findJobRow } from './job-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { partsOfJob } from './part-store.ts';
import {
  findRailReading,
  goodReadingsOfBoard,
  railReadingsOfJob,
  writeRailReading,
} from './rail-reading-store.ts';
import { findReading, insertReading, readingsOfJob } from './reading-store.ts';
import { findRunRow } from './run-store.ts';

type RailHandlers = Handlers<
  Pick<typeof boardCalls, 'railWalk' | 'addRailReading' | 'markReadingGood' | 'cannotReach'>
>;

/** The window's calls about a job's rails. */
export function createRailHandlers(context: LedgerContext): RailHandlers {
  const { db, newId, now } = context;
  const advice = createAdvice();

  const jobOf = async (jobId: string) => {
    const job = await findJobRow(db, jobId);
    if (job === undefined) throw missing('job', jobId);
    return job;
  };

  const boardOf = async (jobId: string) => {
    const job = await jobOf(jobId);
    const board = await findBoard(db, job.board_key);
    if (board !== null) return { job, board };
    const name = job.board_model ?? 'an unknown board';
    throw new WakelineError({
      code: 'not-found',
      what: `Nobody has entered the rails of ${name} yet`,
      where: `job ${job.number}`,
      todo: 'Enter five rails of it under Boards, or keep the reading without a rail.',
    });
  };

  return {
    async railWalk({ jobId, state, isPowered }) {
      const job = await jobOf(jobId);
      const stated = await findBoard(db, job.board_key);
      const meter = await readMeterFacts(db);
      if (stated === null) {
        const alone = await readingsOfJob(db, jobId);
        return {
          board: null,
          boardName: job.board_model,
          places: [],
          states: [],
          job: null,
          goodIds: [],
          alone,
          cannotReach: [],
          meter,
        };
      }
      const board = boardWithKnownGood(stated, await goodReadingsOfBoard(db, job.board_key));
      const { onRails, goodIds, alone } = await railReadingsOfJob(db, jobId, board);
      const changedAt = (await partsOfJob(db, jobId)).map(({ at }) => at);
      const unreachable = await db
        .selectFrom('unreachable_points')
        .select('measurement')
        .where('job_id', '=', jobId)
        .execute();
      const cannotReach = unreachable.map(({ measurement }) => measurement);
      return {
        board,
        boardName: job.board_model,
        places: layOutRails(board),
        states: statesToPick(board, (await readShopStates(db)).defined),
        job: walkJob({
          board,
          readings: onRails,
          changedAt,
          state,
          liquid: job.liquid === 'yes',
          drawBefore: await drawOfJob(db, jobId, 0, Math.min(...changedAt)),
          drawNow: await drawOfJob(db, jobId, Math.max(...changedAt, 0), now()),
          cannotReach,
          isPowered,
          adviceFor: advice(isPowered),
          at: now(),
        }),
        goodIds,
        alone,
        cannotReach,
        meter,
      };
    },

    async addRailReading({ reading: fields, rail, point, against, state, powered }) {
      const { jobId, quantity } = fields;
      const { board } = await boardOf(jobId);
      const refuse = (what: string, where: string, todo: string): never => {
        throw new WakelineError({ code: 'bad-input', what, where, todo });
      };
      if (quantity !== 'volts' && quantity !== 'ohms' && quantity !== 'diode') {
        return refuse(
          `Rails are walked in volts, ohms and diode readings, not ${quantity}`,
          rail,
          'Keep it as a plain reading instead. It was not kept.',
        );
      }
      for (const name of against === null ? [rail] : [rail, against]) {
        if (!board.rails.some((each) => each.name === name)) {
          refuse(
            `${board.name} has no rail ${name}`,
            name,
            'Pick one of its rails, or add a row to the board. It was not kept.',
          );
        }
      }
      if (fields.value === null && !fields.overload) {
        refuse('The reading has no value and is not over range', rail, 'Type the value, or OL.');
      }
      if (quantity !== 'volts' && powered) {
        refuse(
          `${quantity === 'ohms' ? 'Ohms' : 'A diode reading'} on a fed board mean nothing`,
          rail,
          'Output off, let the rail discharge, check its volts, then read. It was not kept.',
        );
      }
      const meter = await readMeterFacts(db);
      const run = fields.runId === null ? undefined : await findRunRow(db, fields.runId);
      const kept: Reading = {
        ...fields,
        id: newId(),
        runId: run?.id ?? null,
        place: fields.place === '' ? rail : fields.place,
        takenAt: now(),
      };
      await changeJobWith(context, jobId, async (trx) => {
        const first = quantity === 'volts' ? [] : openBeforeOhms(await checklistOf(trx, jobId));
        if (first.length > 0) {
          throw new WakelineError({
            code: 'gate-closed',
            what: `Not yet: ${first.map((one) => `"${one.title}"`).join(' and ')} first`,
            where: rail,
            todo: 'Do that step of the checklist, or skip it with a reason, then read again. It was not kept.',
          });
        }
        await insertReading(trx, kept);
        await writeRailReading(
          trx,
          {
            id: kept.id,
            rail,
            point,
            against,
            state,
            powered,
            wires: meter.wires,
            leadOhm: meter.leadOhm,
            accuracy: accuracyOf(meter, quantity),
          },
          false,
        );
      });
      return kept;
    },

    async markReadingGood({ readingId, good }) {
      const reading = await findReading(db, readingId);
      if (reading === undefined) throw missing('reading', readingId);
      if (reading.jobId === null) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'This reading belongs to no job, so to no board',
          where: reading.place === '' ? 'a loose reading' : reading.place,
          todo: 'Give it to a job that names the board, then mark it.',
        });
      }
      const { board } = await boardOf(reading.jobId);
      const onRail = await findRailReading(db, readingId, board);
      if (onRail === null || onRail.quantity === 'volts' || onRail.value === null) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'Only ohms and diode readings with a value on a rail teach a board',
          where: reading.place === '' ? 'this reading' : reading.place,
          todo: 'Take it on a rail of the board, output off and discharged. Nothing was changed.',
        });
      }
      await changeJobWith(context, reading.jobId, (trx) => writeRailReading(trx, onRail, good));
      return null;
    },

    async cannotReach({ jobId, measurement, cannot }) {
      await changeJobWith(context, jobId, async (trx) => {
        await trx
          .deleteFrom('unreachable_points')
          .where('job_id', '=', jobId)
          .where('measurement', '=', measurement)
          .execute();
        if (!cannot) return;
        await trx
          .insertInto('unreachable_points')
          .values({ job_id: jobId, measurement, said_at: now() })
          .execute();
      });
      return null;
    },
  };
}

function accuracyOf(meter: MeterFacts, quantity: RailReading['quantity']): MeterAccuracy | null {
  const percent = quantity === 'ohms' ? meter.ohmsPercent : meter.voltsPercent;
  return percent === null ? null : { percent, offset: 0 };
}
