import type { Stage, StageReport } from '../stages/stage.ts';
import { STAGE_WORDS } from '../stages/stage.ts';
import { formatQuantity } from '../units/format.ts';
import { matchSteps, type StepPair } from './match-steps.ts';
import { stepWords, unmatchedStepWords } from './step-words.ts';
import { isTelling, SMALL_LEVEL, SMALL_S } from './telling.ts';

/** Where runs are laid over one another. */
export type AlignBy =
  | { readonly by: 'output-on' | 'wake-request' }
  /** At their step of that number, from 0. */
  | { readonly by: 'step'; readonly step: number };

/** A run to compare: its stages, and the volts that it was fed at. */
export interface ComparedRun {
  readonly id: string;
  readonly report: StageReport;
  readonly feedV: number | null;
}

/** How a run differs from the first one. */
export interface RunDifferences {
  readonly id: string;
  /** Seconds of the run that lie under second 0 of the common time; null = it has no such moment. */
  readonly zeroS: number | null;
  /** In words, most telling first. Empty for the first run, and for one that does the same. */
  readonly lines: readonly string[];
  /** Steps of the first run beside those of this one. */
  readonly steps: readonly StepPair[];
}

/** Most runs that are laid over one another. */
export const MOST_COMPARED = 6;
/** Feed volts closer than this share are the same; else levels are compared in watts. */
const SAME_VOLTS = 0.1;

/**
 * How each run differs from the first, in words: reach, steps (later, earlier, higher, lower,
 * missing), time to running, peak and marks, all counted from the moment they are aligned at. Feed
 * volts that differ by more than a tenth make levels be compared in watts, and the first line says
 * so. A run without the moment asked for is compared from its own start, and says so.
 */
export function compareRuns(
  runs: readonly ComparedRun[],
  alignBy: AlignBy,
): readonly RunDifferences[] {
  const [first, ...others] = runs;
  if (first === undefined) return [];
  const zero = zeroOf(first.report, alignBy);
  return [
    { id: first.id, zeroS: zero, lines: [], steps: [] },
    ...others.map((run) => differences({ first, zero, run, alignBy })),
  ];
}

/**
 * Seconds of a run at the moment that it is aligned at; null when it has none. A wake request is
 * the last before the board ran (the last of all while it does not run); output on is the run's
 * own start when it is not marked.
 */
export function zeroOf(report: StageReport, alignBy: AlignBy): number | null {
  if (alignBy.by === 'step') return report.steps[alignBy.step]?.atS ?? null;
  const marks = report.marks.filter(({ mark }) => mark === alignBy.by);
  if (alignBy.by === 'output-on') return marks[0]?.atS ?? 0;
  const running = report.stages.find(({ stage }) => stage === 'running');
  const before = marks.filter(({ atS }) => running === undefined || atS <= running.startS);
  return (before.at(-1) ?? marks[0])?.atS ?? null;
}

function differences(o: {
  first: ComparedRun;
  zero: number | null;
  run: ComparedRun;
  alignBy: AlignBy;
}): RunDifferences {
  const { first, run } = o;
  const zeroS = zeroOf(run.report, o.alignBy);
  const [volts, theirs] = [first.feedV, run.feedV];
  const inWatts =
    volts !== null &&
    theirs !== null &&
    Math.abs(theirs - volts) > SAME_VOLTS * Math.max(volts, theirs);
  const scale = { first: inWatts ? volts : 1, run: inWatts ? theirs : 1 };
  const unit = inWatts ? ('W' as const) : ('A' as const);
  const lines: string[] = [];
  if (inWatts) {
    lines.push(`fed at ${level(theirs, 'V')} instead of ${level(volts, 'V')}: compared in watts`);
  }
  if (zeroS === null || o.zero === null) {
    const words =
      o.alignBy.by === 'step' ? `step ${o.alignBy.step + 1}` : o.alignBy.by.replace('-', ' ');
    lines.push(`${zeroS === null ? 'has' : 'the first run has'} no ${words}: laid at its start`);
  }
  const zeros = { first: o.zero ?? 0, run: zeroS ?? 0 };
  lines.push(...reachLines(first.report, run.report, scale, unit));
  lines.push(...runningLine(first.report, run.report, zeros));
  const steps = matchSteps(first.report.steps, run.report.steps, scale);
  for (const pair of steps) {
    lines.push(...stepWords(pair, { zeros, scale, unit }));
  }
  for (const pair of steps) lines.push(...unmatchedStepWords(pair, { zeros, scale, unit }));
  lines.push(...peakLine(first.report, run.report, scale, unit));
  lines.push(...markLines(first.report, run.report));
  return { id: run.id, zeroS, lines, steps };
}

interface Scale {
  readonly first: number;
  readonly run: number;
}

function reachLines(first: StageReport, run: StageReport, scale: Scale, unit: 'A' | 'W'): string[] {
  const there = first.reach.heldA;
  const here = run.reach.heldA;
  const last = (report: StageReport) => report.stages.findLast(isOn)?.stage ?? null;
  const [ends, theirs] = [last(run), last(first)];
  const lines: string[] = [];
  if (ends !== theirs && ends !== null && theirs !== null) {
    lines.push(
      `ends ${STAGE_WORDS[ends].toLowerCase()} where the first ends ${STAGE_WORDS[theirs].toLowerCase()}`,
    );
  }
  if (there !== null && here !== null) {
    const by = here * scale.run - there * scale.first;
    if (isTelling(by, there * scale.first, SMALL_LEVEL[unit])) {
      lines.push(
        `holds ${level(here * scale.run, unit)}, ${level(Math.abs(by), unit)} ${by > 0 ? 'more' : 'less'}`,
      );
    }
  }
  return lines;
}

const isOn = ({ stage }: Stage) => stage !== 'off';

function runningLine(first: StageReport, run: StageReport, zeros: Scale): string[] {
  const startOf = (report: StageReport, zero: number) => {
    const running = report.stages.find(({ stage }) => stage === 'running');
    return running === undefined ? null : running.startS - zero;
  };
  const [there, here] = [startOf(first, zeros.first), startOf(run, zeros.run)];
  if (there === null || here === null) return [];
  const by = here - there;
  if (!isTelling(by, there, SMALL_S)) return [];
  return [`runs ${Math.abs(by).toFixed(1)} s ${by > 0 ? 'later' : 'earlier'}`];
}

function peakLine(first: StageReport, run: StageReport, scale: Scale, unit: 'A' | 'W'): string[] {
  if (first.peakA === null || run.peakA === null) return [];
  const by = run.peakA * scale.run - first.peakA * scale.first;
  if (!isTelling(by, first.peakA * scale.first, SMALL_LEVEL[unit])) return [];
  return [`peak ${level(Math.abs(by), unit)} ${by > 0 ? 'higher' : 'lower'}`];
}

/** Marks that tell something of the board or the feed and that only one of the runs has. */
const TELLING_MARKS = [
  ['inrush', 'an inrush'],
  ['feed-change', 'a feed change'],
  ['back-fed', 'a back-fed stretch'],
  ['gap', 'a gap in the readings'],
  ['guard-trip', 'a guard trip'],
] as const;

function markLines(first: StageReport, run: StageReport): string[] {
  return TELLING_MARKS.flatMap(([mark, words]) => {
    const has = (report: StageReport) => report.marks.some((one) => one.mark === mark);
    if (has(first) === has(run)) return [];
    return [has(run) ? `has ${words}` : `has not ${words} of the first`];
  });
}

function level(value: number, unit: 'A' | 'W' | 'V'): string {
  return formatQuantity(value, unit, null, { digits: 3 });
}
