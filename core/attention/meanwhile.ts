import type { Run, RunEnd } from '../job/job.ts';
import { MARK_WORDS, STAGE_WORDS, type StageReport } from '../stages/stage.ts';

/** Something that happened, on the wall clock. */
export interface Happening {
  readonly atMs: number;
  readonly text: string;
  /** 0 = the least; what a person must see first is dropped last. */
  readonly weight: number;
}

/** A run and what the tracker says of it. */
export interface SeenRun {
  readonly run: Pick<Run, 'startedAt' | 'endedAt' | 'end' | 'kind' | 'durationS'>;
  readonly report: Pick<StageReport, 'stages' | 'marks' | 'durationS'>;
}

const END_WORDS: Readonly<Record<RunEnd, string>> = {
  'output-off': 'Output off',
  guard: 'The guard switched the output off',
  'lost-instrument': 'The run ended: the supply was lost',
  'app-closed': 'The run ended: the app was closed',
  recovered: 'The run ended with the app, and was found again',
  'file-end': 'The trace file ended',
};

/** How much a person who comes back wants to know it. */
const ALARM = 4;
const ENDED = 3;
const STAGE = 2;
const MARK = 1;

/**
 * What happened between two wall-clock times, oldest first, in at most `most` lines: stages that
 * began, marks, ends of runs, and what else was raised (`told`). When there is more, the least
 * weighty are left out and one line says how many.
 */
export function meanwhile(
  away: { readonly fromMs: number; readonly toMs: number },
  runs: readonly SeenRun[],
  told: readonly Happening[],
  most = 10,
): readonly Happening[] {
  const all = [...runs.flatMap(happeningsOf), ...told]
    .filter((one) => one.atMs > away.fromMs && one.atMs <= away.toMs)
    .sort((a, b) => a.atMs - b.atMs);
  if (all.length <= most) return all;
  const kept = new Set(
    [...all].sort((a, b) => b.weight - a.weight || b.atMs - a.atMs).slice(0, most - 1),
  );
  const left = all.length - kept.size;
  const rest: Happening = { atMs: away.fromMs, text: `and ${left} smaller things`, weight: 0 };
  return [...all.filter((one) => kept.has(one)), rest];
}

function happeningsOf({ run, report }: SeenRun): readonly Happening[] {
  if (run.kind !== 'powered') return [];
  const at = (seconds: number) => run.startedAt + seconds * 1000;
  const stages = report.stages.map(
    (stage): Happening => ({
      atMs: at(stage.startS),
      text: `${STAGE_WORDS[stage.stage]}: ${stage.reason}`,
      weight: STAGE,
    }),
  );
  const marks = report.marks.map(
    (mark): Happening => ({
      atMs: at(mark.atS),
      text: mark.text === '' ? MARK_WORDS[mark.mark] : `${MARK_WORDS[mark.mark]}: ${mark.text}`,
      weight: mark.mark === 'guard-trip' || mark.mark === 'gap' ? ALARM : MARK,
    }),
  );
  if (run.endedAt === null || run.end === null) return [...stages, ...marks];
  return [...stages, ...marks, { atMs: run.endedAt, text: END_WORDS[run.end], weight: ENDED }];
}
