import { z } from 'zod';
import type { DonorBoard, DonorSearch, ModelPart, PartFacts } from '../donors/donor-board.ts';
import type { Part } from '../job/job.ts';
import { answers } from './call.ts';
import { id, line, note, volts } from './fields.ts';

const knownFrom = z.enum(['unknown', 'marking', 'label', 'same-place', 'schematic']);
const boardModel = line.min(1, 'name the board model');

export const partDetails = z.object({
  role: z.enum([
    'bulk',
    'regulator-output',
    'decoupling',
    'feedback',
    'timing',
    'sensing',
    'other',
  ]),
  critical: z.boolean().nullable(),
  railV: volts.nullable(),
  knownFrom,
  leftOff: z.enum(['no', 'for-a-test', 'for-good', 'put-back']),
  decision: note,
  agreedBy: line,
});

/** Calls about details of parts and about donor boards: answered by the ledger worker. */
export const partCalls = {
  /** A job's parts with details, how each was read and whether a fitted one is an equal. */
  readPartFacts: answers<readonly PartFacts[]>()(z.object({ jobId: id })),
  /** Details of a part; leaving it off for good asks for a reason and who agreed. */
  keepPartDetails: answers<PartFacts>()(z.object({ partId: id, details: partDetails })),
  listDonors: answers<readonly DonorBoard[]>()(z.object({})),
  /** Adds a board to a shelf, or changes the one with `id`. */
  saveDonor: answers<DonorBoard>()(
    z.object({ id: id.nullable(), fields: z.object({ boardModel, shelf: line, note }) }),
  ),
  /** The board leaves the shelf; what was taken from it stays told. */
  scrapDonor: answers<null>()(z.object({ id })),
  readModelParts: answers<readonly ModelPart[]>()(z.object({ boardModel })),
  /** What every board of a model carries, a part a line; refuses with `bad-input` naming the line. */
  saveModelParts: answers<readonly ModelPart[]>()(
    z.object({ boardModel, table: z.string().max(400_000), knownFrom }),
  ),
  /** Looks across shelves for a part of a job, or for one typed. */
  findDonor: answers<DonorSearch>()(
    z.union([
      z.object({ partId: id }),
      z.object({ text: line.min(1, 'type the part'), jobId: id.nullable() }),
    ]),
  ),
  /** Takes a part and fits it into a job; without a job it is only marked as gone from the board. */
  takeFromDonor: answers<Part | null>()(
    z.object({
      donorId: id,
      designator: line.min(1),
      jobId: id.nullable(),
      /** Where it goes; '' = the same designator. */
      place: line,
    }),
  ),
  /**
   * A part that was taken goes back to its board. Out of an open job it is written as lifted there,
   * so that its place asks what becomes of it; refused with `bad-input` once that job is closed.
   */
  returnToDonor: answers<DonorBoard>()(
    z.object({ takeId: id, why: line.min(3, 'say why in a few words') }),
  ),
} as const;
