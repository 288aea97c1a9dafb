import type { Insertable, Selectable } from 'kysely';
import type { FeedChange, Reach, StageReport, TrackerSettings } from '../../core/stages/stage.ts';
import type { Db } from './ledger-context.ts';
import { type ClassificationRow, flag } from './tables.ts';

/** How many entries of each list are stored already and did not change since. */
interface Unchanged {
  readonly stages: number;
  readonly marks: number;
  readonly steps: number;
}

const NOTHING: Unchanged = { stages: 0, marks: 0, steps: 0 };

function summaryColumns(report: StageReport) {
  return {
    tracker_version: report.trackerVersion,
    samples: report.samples,
    duration_s: report.durationS,
    reach_stage: report.reach.stage,
    reach_held_a: report.reach.heldA,
    reach_held_w: report.reach.heldW,
    reach_share: report.reach.share,
    energy_wh: report.energyWh,
    charge_ah: report.chargeAh,
    peak_a: report.peakA,
    feed_changes_json: report.feedChanges === undefined ? null : JSON.stringify(report.feedChanges),
  } satisfies Partial<Insertable<ClassificationRow>>;
}

/** Adds a classification of a run. Nothing that was said before is touched. */
export async function insertReport(
  db: Db,
  o: {
    id: string;
    runId: string;
    madeAt: number;
    report: StageReport;
    settings: TrackerSettings;
  },
): Promise<void> {
  await db
    .insertInto('classifications')
    .values({
      id: o.id,
      run_id: o.runId,
      made_at: o.madeAt,
      settings_json: JSON.stringify(o.settings),
      ...summaryColumns(o.report),
    })
    .execute();
  await writeLists(db, o.id, o.report, NOTHING);
}

/**
 * Brings a classification that is still being made (its run goes on) up to what the tracker says
 * now, writing only what differs from `before`.
 */
export async function growReport(
  db: Db,
  id: string,
  before: StageReport,
  report: StageReport,
): Promise<void> {
  await db
    .updateTable('classifications')
    .set(summaryColumns(report))
    .where('id', '=', id)
    .execute();
  await writeLists(db, id, report, {
    stages: sameFor(before.stages, report.stages),
    marks: sameFor(before.marks, report.marks),
    steps: sameFor(before.steps, report.steps),
  });
}

function sameFor<T extends object>(before: readonly T[], now: readonly T[]): number {
  const same = (a: T, b: T) =>
    a === b || (Object.keys(b) as (keyof T)[]).every((key) => Object.is(a[key], b[key]));
  let i = 0;
  while (i < before.length && i < now.length && same(before[i]!, now[i]!)) i += 1;
  return i;
}

/** SQLite takes 32,766 values a statement: lists go in in slices. */
const ROWS_A_STATEMENT = 500;

function slices<T>(rows: readonly T[]): readonly (readonly T[])[] {
  const out: (readonly T[])[] = [];
  for (let i = 0; i < rows.length; i += ROWS_A_STATEMENT) {
    out.push(rows.slice(i, i + ROWS_A_STATEMENT));
  }
  return out;
}

async function writeLists(db: Db, id: string, report: StageReport, kept: Unchanged): Promise<void> {
  for (const table of ['stages', 'marks', 'steps'] as const) {
    await db
      .deleteFrom(table)
      .where('classification_id', '=', id)
      .where('seq', '>=', kept[table])
      .execute();
  }
  const numbered = <T>(rows: readonly T[], from: number) =>
    rows.slice(from).map((row, i) => ({ row, classification_id: id, seq: from + i }));
  const stages = numbered(report.stages, kept.stages).map(({ row, ...key }) => ({
    ...key,
    stage: row.stage,
    start_s: row.startS,
    end_s: row.endS,
    mean_a: row.meanA,
    mean_v: row.meanV,
    confidence: row.confidence,
    reason: row.reason,
    period_s: row.periodS,
    plus_minus_a: row.plusMinusA ?? null,
    ripple_a: row.rippleA ?? null,
    final: flag(row.final),
  }));
  const marks = numbered(report.marks, kept.marks).map(({ row, ...key }) => ({
    ...key,
    mark: row.mark,
    at_s: row.atS,
    text: row.text,
  }));
  const steps = numbered(report.steps, kept.steps).map(({ row, ...key }) => ({
    ...key,
    at_s: row.atS,
    from_a: row.fromA,
    to_a: row.toA,
    rise_s: row.riseS ?? null,
    plus_minus_a: row.plusMinusA ?? null,
  }));
  for (const rows of slices(stages)) await db.insertInto('stages').values(rows).execute();
  for (const rows of slices(marks)) await db.insertInto('marks').values(rows).execute();
  for (const rows of slices(steps)) await db.insertInto('steps').values(rows).execute();
}

/** The newest classification's summary of each run; runs never classified are missing. */
export async function newestSummaries(
  db: Db,
  runIds: readonly string[],
): Promise<ReadonlyMap<string, Selectable<ClassificationRow>>> {
  const found = new Map<string, Selectable<ClassificationRow>>();
  for (const ids of slices(runIds)) {
    const rows = await db
      .selectFrom('classifications as c')
      .selectAll()
      .where('c.run_id', 'in', ids)
      .where((eb) =>
        eb(
          'c.id',
          '=',
          eb
            .selectFrom('classifications as newer')
            .select((e) => e.fn.max('newer.id').as('id'))
            .whereRef('newer.run_id', '=', 'c.run_id'),
        ),
      )
      .execute();
    for (const row of rows) found.set(row.run_id, row);
  }
  return found;
}

/** How far a run got, from its classification's summary. */
export function reachOf(row: Selectable<ClassificationRow>): Reach {
  return {
    stage: row.reach_stage as Reach['stage'],
    heldA: row.reach_held_a,
    heldW: row.reach_held_w,
    share: row.reach_share,
  };
}

/** Everything a classification says, in the tracker's own shape. */
export async function readReport(db: Db, row: Selectable<ClassificationRow>): Promise<StageReport> {
  const stages = await db
    .selectFrom('stages')
    .selectAll()
    .where('classification_id', '=', row.id)
    .orderBy('seq')
    .execute();
  const marks = await db
    .selectFrom('marks')
    .selectAll()
    .where('classification_id', '=', row.id)
    .orderBy('seq')
    .execute();
  const steps = await db
    .selectFrom('steps')
    .selectAll()
    .where('classification_id', '=', row.id)
    .orderBy('seq')
    .execute();
  return {
    trackerVersion: row.tracker_version,
    samples: row.samples,
    durationS: row.duration_s,
    reach: reachOf(row),
    stages: stages.map((s) => ({
      stage: s.stage as StageReport['stages'][number]['stage'],
      startS: s.start_s,
      endS: s.end_s,
      meanA: s.mean_a,
      meanV: s.mean_v,
      confidence: s.confidence,
      reason: s.reason,
      periodS: s.period_s,
      ...(s.plus_minus_a === null ? {} : { plusMinusA: s.plus_minus_a }),
      ...(s.ripple_a === null ? {} : { rippleA: s.ripple_a }),
      final: s.final === 1,
    })),
    marks: marks.map((m) => ({
      mark: m.mark as StageReport['marks'][number]['mark'],
      atS: m.at_s,
      text: m.text,
    })),
    steps: steps.map((s) => ({
      atS: s.at_s,
      fromA: s.from_a,
      toA: s.to_a,
      ...(s.rise_s === null ? {} : { riseS: s.rise_s }),
      ...(s.plus_minus_a === null ? {} : { plusMinusA: s.plus_minus_a }),
    })),
    energyWh: row.energy_wh,
    chargeAh: row.charge_ah,
    peakA: row.peak_a,
    ...(row.feed_changes_json === null
      ? {}
      : { feedChanges: JSON.parse(row.feed_changes_json) as readonly FeedChange[] }),
  };
}
