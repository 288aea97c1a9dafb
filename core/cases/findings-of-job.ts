import type { Finding, FindingOrigin } from '../finding/finding.ts';
import type { JobWhole, Reading, Run } from '../job/job.ts';
import type { StageReport } from '../stages/stage.ts';
import { formatQuantity } from '../units/format.ts';
import type { Unit } from '../units/unit.ts';

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

const SOURCE = 'common practice, no source';
/** A stated input is met within this share; below this share of the expected low a rail is missing. */
const NEAR = 0.05;
const MISSING_SHARE = 0.1;
const SHORTED_SHARE = 0.1;
/** A diode at the limit holds the supply between these volts. */
const DIODE_V = [0.4, 1.1] as const;

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
  if (powered !== undefined) findings.push(...runFindings(powered, job.board));
  for (const reading of [...readings].sort((a, b) => a.takenAt - b.takenAt)) {
    const found = readingFinding(reading);
    if (found !== null) findings.push(found);
  }
  if (job.liquid !== 'unknown') {
    const isSeen = job.liquid === 'yes';
    findings.push(
      sight(
        'liquid',
        isSeen ? 'seen' : 'none',
        isSeen ? 'Liquid was told of at intake.' : 'No liquid was told of at intake.',
        {
          at: job.createdAt,
          from: { kind: 'job', id: job.id },
        },
      ),
    );
  }
  for (const { question, outcome, at } of typed) {
    if (at >= until) continue;
    findings.push(
      sight(
        question,
        outcome,
        `Looked at: ${question.replaceAll('-', ' ')}, ${outcome.replaceAll('-', ' ')}.`,
        {
          at,
          from: { kind: 'job', id: job.id },
        },
      ),
    );
  }
  return findings;
}

function runFindings({ run, report }: SeenRun, board: JobWhole['job']['board']): Finding[] {
  const from: FindingOrigin = { kind: 'run', id: run.id };
  const at = run.startedAt;
  const found: Finding[] = [];
  const stages = report.stages.filter(({ stage }) => stage !== 'off');
  const last = stages.at(-1);
  if (last !== undefined) {
    const mean = last.meanA === null ? '' : ` at ${formatQuantity(last.meanA, 'A', 4)}`;
    found.push(
      sight('draw', last.stage, `The draw ended ${last.stage.replaceAll('-', ' ')}${mean}.`, {
        at,
        from,
        value: last.meanA,
        unit: 'A',
      }),
    );
  }
  if (run.limitA !== null && board.statedLimitA !== null) {
    const isLow = run.limitA < board.statedLimitA * (1 - NEAR);
    found.push(
      sight(
        'limit',
        isLow ? 'too-low' : 'enough',
        `The limit was ${formatQuantity(run.limitA, 'A', 4)}; the board states ${formatQuantity(board.statedLimitA, 'A', 4)}.`,
        { at, from, value: run.limitA, unit: 'A' },
      ),
    );
  }
  if (run.setV !== null && board.statedInputV !== null) {
    const isStated = Math.abs(run.setV / board.statedInputV - 1) <= NEAR;
    found.push(
      sight(
        'feed',
        isStated ? 'as-stated' : 'other',
        `Fed with ${formatQuantity(run.setV, 'V', 4)}; the board states ${formatQuantity(board.statedInputV, 'V', 4)}.`,
        { at, from, value: run.setV, unit: 'V' },
      ),
    );
  }
  const limited = stages.findLast(({ stage }) => stage === 'limited');
  const volts = limited?.meanV ?? null;
  if (volts !== null && volts >= DIODE_V[0] && volts <= DIODE_V[1]) {
    found.push(
      sight(
        'board-volts',
        'about-a-diode',
        `At the limit the supply was held at ${formatQuantity(volts, 'V', 3)}, about a diode.`,
        {
          at,
          from,
          value: volts,
          unit: 'V',
        },
      ),
    );
  }
  if (report.marks.some(({ mark }) => mark === 'wake-request')) {
    found.push(sight('wake', 'asked', 'It was asked to wake in this run.', { at, from }));
  }
  return found;
}

function readingFinding(reading: Reading): Finding | null {
  const { quantity, value, overload, expectedLow, expectedHigh, place } = reading;
  const rail = /\bmain\b/i.test(place) ? 'main' : /\bcore\b/i.test(place) ? 'core' : null;
  if (rail === null || (expectedLow === null && expectedHigh === null)) return null;
  const origin = { at: reading.takenAt, from: { kind: 'reading' as const, id: reading.id } };
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
    return sight(`${rail}-rail`, outcome, claim, { ...origin, value, unit: 'V' });
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
  return sight(
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

function sight(
  question: string,
  outcome: string,
  claim: string,
  o: {
    readonly at: number;
    readonly from: FindingOrigin;
    readonly value?: number | null;
    readonly unit?: Unit;
  },
): Finding {
  return {
    key: `${question}:${outcome}`,
    room: 'job',
    claim,
    value: o.value ?? null,
    unit: o.unit ?? '',
    uncertainty: null,
    source: SOURCE,
    likelihoods: {},
    from: [o.from],
    at: o.at,
  };
}
