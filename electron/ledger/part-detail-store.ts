import type { LeftOff, PartDetails } from '../../core/donors/donor-board.ts';
import type { KeptDetails } from '../../core/donors/part-facts.ts';
import { readPartValue } from '../../core/donors/spec-of-part.ts';
import type { Part } from '../../core/job/job.ts';
import type { Equivalence, KnownFrom, PartRole } from '../../core/parts/equivalence.ts';
import type { PartSpec } from '../../core/parts/part-spec.ts';
import type { Db } from './ledger-context.ts';
import { flag } from './tables.ts';

/** Details of a job's parts by part; a part without any is left out. */
export async function detailsOfJob(
  db: Db,
  jobId: string,
): Promise<ReadonlyMap<string, KeptDetails>> {
  const rows = await db
    .selectFrom('part_details')
    .innerJoin('parts', 'parts.id', 'part_details.part_id')
    .selectAll('part_details')
    .where('parts.job_id', '=', jobId)
    .execute();
  return new Map(
    rows.map((row) => [
      row.part_id,
      {
        details: {
          role: row.role as PartRole,
          critical: row.critical === null ? null : row.critical === 1,
          railV: row.rail_v,
          knownFrom: row.known_from as KnownFrom,
          leftOff: row.left_off as LeftOff,
          decision: row.decision,
          agreedBy: row.agreed_by,
        },
        spec: row.spec_json === null ? null : (JSON.parse(row.spec_json) as PartSpec),
        equivalence:
          row.equivalence_json === null ? null : (JSON.parse(row.equivalence_json) as Equivalence),
        putBackOf: row.put_back_of,
      },
    ]),
  );
}

/**
 * Keeps a part's details with its value as it reads now; null where the value cannot be read.
 * `putBackOf` is only said of a new part.
 */
export async function writeDetails(
  db: Db,
  part: Part,
  details: PartDetails,
  putBackOf: string | null = null,
): Promise<void> {
  const columns = {
    spec_json: specJson(part),
    role: details.role,
    critical: details.critical === null ? null : flag(details.critical),
    rail_v: details.railV,
    known_from: details.knownFrom,
    left_off: details.leftOff,
    decision: details.decision.trim(),
    agreed_by: details.agreedBy.trim(),
  };
  await db
    .insertInto('part_details')
    .values({ part_id: part.id, equivalence_json: null, put_back_of: putBackOf, ...columns })
    .onConflict((c) => c.column('part_id').doUpdateSet(columns))
    .execute();
}

/** The plain line of a part was changed: what its details hold of its value follows. */
export async function readSpecAgain(db: Db, part: Part): Promise<void> {
  await db
    .updateTable('part_details')
    .set({ spec_json: specJson(part) })
    .where('part_id', '=', part.id)
    .execute();
}

/** Keeps whether a fitted part is an equal, as it was judged. */
export async function writeEquivalence(
  db: Db,
  partId: string,
  equivalence: Equivalence | null,
): Promise<void> {
  await db
    .updateTable('part_details')
    .set({ equivalence_json: equivalence === null ? null : JSON.stringify(equivalence) })
    .where('part_id', '=', partId)
    .execute();
}

function specJson(part: Part): string | null {
  if (part.value.trim() === '') return null;
  const read = readPartValue(part);
  return read.faults.length > 0 ? null : JSON.stringify(read.spec);
}
