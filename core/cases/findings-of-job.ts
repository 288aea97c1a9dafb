import type { Finding } from '../finding/finding.ts';
import type { JobWhole, Reading, Run } from '../job/job.ts';
import type { StageReport } from '../stages/stage.ts';
import { formatQuantity } from '../units/format.ts';
import { benchSights } from './bench-sights.ts';
import { sightFinding } from './sight-finding.ts';

/** A run with what its tracker said. */
export interface SeenRun {
  readonly run: Run;
  readonly report: StageReport;
}

/** An answer that a person gave by looking. */
export interface TypedSight {
  readonly question: string;
  readonly outcome: string;
  readonly at: number;
}

/** Below this share of the expected low a rail is missing. */
const MISSING_SHARE = 0.1;
const SHORTED_SHARE = 0.1;

/**
 * What a job has seen that speaks for causes, before its first part was fitted: the newest powered
 * run's draw, its limit and feed against what the board states, readings with expected values on the
 * main rail and the core, liquid at intake, and what a person answered. Keys are `question:outcome`
 * of the cause table; the table holds the likelihoods.
 */
export function findingsOfJob(
  whole: JobWhole,
  runs: readonly SeenRun[],
  typed: readonly TypedSight[],
): readonly Finding[] {
  const { job, parts } = whole;
  const fits = parts.filter(({ action }) => action === 'fitted').map(({ at }) => at);
  const until = Math.min(Number.POSITIVE_INFINITY, ...fits);
  const readings = whole.readings.filter(({ takenAt }) => takenAt < until);
  const powered = runs
    .filter(({ run }) => run.kind === 'powered' && run.startedAt < until)
    .sort((a, b) => a.run.startedAt - b.run.startedAt)
    .at(-1);
  const findings: Finding[] = [];
  if (powered !== undefined) findings.push(...runFindings(powered, whole, until));
  for (const reading of [...readings].sort((a, b) => a.takenAt - b.takenAt)) {
    const found = readingFinding(reading);
    if (found !== null) findings.push(found);
  }
  if (job.liquid !== 'unknown') {
    const isSeen = job.liquid === 'yes';
    findings.push(
      sightFinding(
        'liquid',
        isSeen ? 'seen' : 'none',
        isSeen ? 'Liquid was told of at intake.' : 'No liquid was told of at intake.',
        {
          at: job.createdAt,
          from: [{ kind: 'job', id: job.id }],
        },
      ),
    );
  }
  for (const { question, outcome, at } of typed) {
    if (at >= until) continue;
    findings.push(
      sightFinding(
        question,
        outcome,
        `Looked at: ${question.replaceAll('-', ' ')}, ${outcome.replaceAll('-', ' ')}.`,
        {
          at,
          from: [{ kind: 'job', id: job.id }],
        },
      ),
    );
  }
  return findings;
}

function runFindings(seen: SeenRun, whole: JobWhole, until: number): readonly Finding[] {
  const { run, report } = seen;
  const ends = Math.min(run.endedAt ?? Number.POSITIVE_INFINITY, until);
  const readings = whole.readings
    .filter(
      ({ takenAt, runId }) => runId === run.id || (takenAt >= run.startedAt && takenAt <= ends),
    )
    .filter(({ takenAt }) => takenAt < until)
    .sort((a, b) => a.takenAt - b.takenAt);
  const bench = benchSights({ run, report, board: whole.job.board, readings });
  const last = report.stages.filter(({ stage }) => stage !== 'off').at(-1);
  if (last === undefined) return bench;
  const mean = last.meanA === null ? '' : ` at ${formatQuantity(last.meanA, 'A', 4)}`;
  return [
    sightFinding('draw', last.stage, `The draw ended ${last.stage.replaceAll('-', ' ')}${mean}.`, {
      at: run.startedAt,
      from: [{ kind: 'run', id: run.id }],
      value: last.meanA,
      unit: 'A',
    }),
    ...bench,
  ];
}

function readingFinding(reading: Reading): Finding | null {
  const { quantity, value, overload, expectedLow, expectedHigh, place } = reading;
  const rail = /\bmain\b/i.test(place) ? 'main' : /\bcore\b/i.test(place) ? 'core' : null;
  if (rail === null || (expectedLow === null && expectedHigh === null)) return null;
  const origin = { at: reading.takenAt, from: [{ kind: 'reading' as const, id: reading.id }] };
  const low = expectedLow ?? 0;
  if (quantity === 'volts' && value !== null) {
    const outcome =
      value < low * MISSING_SHARE
        ? 'missing'
        : value < low
          ? 'low'
          : expectedHigh !== null && value > expectedHigh
            ? 'high'
            : 'present';
    const claim = `${place} reads ${formatQuantity(value, 'V', 4)}: ${outcome}.`;
    return sightFinding(`${rail}-rail`, outcome, claim, { ...origin, value, unit: 'V' });
  }
  if (quantity !== 'ohms' || rail !== 'main') return null;
  const outcome =
    overload || value === null
      ? 'open'
      : value < low * SHORTED_SHARE
        ? 'shorted'
        : value < low
          ? 'low'
          : 'as-known-good';
  const said = value === null ? 'over range' : formatQuantity(value, 'Ω', 4);
  return sightFinding(
    'main-ohms',
    outcome,
    `${place} to ground reads ${said}: ${outcome.replaceAll('-', ' ')}.`,
    {
      ...origin,
      value,
      unit: 'Ω',
    },
  );
}
