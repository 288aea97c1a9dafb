import type { Selectable } from 'kysely';
import { anchorS } from '../../core/bands/band-anchor.ts';
import {
  type CurveSignature,
  curveSignature,
  SIGNATURE_POINTS,
} from '../../core/match/curve-signature.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { Db } from './ledger-context.ts';
import { newestSummaries, readReport } from './report-store.ts';
import type { RunReader } from './run-reader.ts';
import type { SignatureRow } from './tables.ts';

/** Goes up when the same run would get another signature: older rows are made again. */
export const SIGNATURE_VERSION = 1;
/** Samples that a signature is made of: a minute at up to a kilohertz, what lies before it included. */
const MOST_SAMPLES = 200_000;
/** Seconds after the wake request (the beginning, without one) that are read. */
const READ_S = 90;

/** A run's signature from its samples; null when there is no draw to see. */
export async function signatureOfRun(
  db: Db,
  reader: RunReader,
  runId: string,
  report: StageReport | null,
): Promise<CurveSignature | null> {
  const summary = report === null ? (await newestSummaries(db, [runId])).get(runId) : undefined;
  const said = report ?? (summary === undefined ? null : await readReport(db, summary));
  const wokenS = said === null ? null : anchorS(said, 'wake-request');
  const toTick = Math.ceil(((wokenS ?? 0) + READ_S) * TICKS_PER_SECOND);
  const startTick = wokenS === null ? null : Math.round(wokenS * TICKS_PER_SECOND);
  const columns = await reader.samples(runId, startTick ?? 0, toTick, MOST_SAMPLES);
  return curveSignature(columns, '', startTick);
}

/** Keeps a run's signature; null is kept too, so that it is not looked for again. */
export async function writeSignature(
  db: Db,
  runId: string,
  signature: CurveSignature | null,
): Promise<void> {
  const columns = {
    version: SIGNATURE_VERSION,
    quantity: signature?.quantity ?? null,
    known: signature?.known ?? 0,
    base: signature?.base ?? 0,
    shape: signature === null ? null : new Uint8Array(Float32Array.from(signature.shape).buffer),
  };
  await db
    .insertInto('signatures')
    .values({ run_id: runId, ...columns })
    .onConflict((c) => c.column('run_id').doUpdateSet(columns))
    .execute();
}

/** A signature from its row; null for a run without draw. */
export function signatureFromRow(row: Selectable<SignatureRow>): CurveSignature | null {
  const { quantity, shape, known, base } = row;
  if (shape === null || (quantity !== 'watts' && quantity !== 'amps')) return null;
  if (shape.byteLength !== SIGNATURE_POINTS * Float32Array.BYTES_PER_ELEMENT) return null;
  // A copy of its own: a row's bytes need not begin at a multiple of four.
  const points = new Float32Array(new Uint8Array(shape).buffer);
  return { quantity, shape: Float64Array.from(points), known, base, feed: '' };
}

/** Ended powered runs that have no signature of this version yet, oldest first. */
export async function runsWithoutSignature(db: Db, limit: number): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('runs')
    .leftJoin('signatures', 'signatures.run_id', 'runs.id')
    .select('runs.id')
    .where('runs.kind', '=', 'powered')
    .where('runs.ended_at', 'is not', null)
    .where((eb) =>
      eb.or([
        eb('signatures.version', 'is', null),
        eb('signatures.version', '<', SIGNATURE_VERSION),
      ]),
    )
    .orderBy('runs.id')
    .limit(limit)
    .execute();
  return rows.map((row) => row.id);
}
