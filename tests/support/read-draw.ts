import { type StageReport, type TrackerSettings, UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { classifyTrace } from '../../core/stages/tracker.ts';
import { Dice, type Logging, logDraw, PLAIN_LOGGING, type Stretch } from './drawn-draws.ts';

/** A draw logged as a plain supply would, and what the tracker says of it. */
export function readDraw(
  stretches: readonly Stretch[],
  options: { settings?: Partial<TrackerSettings>; logging?: Partial<Logging>; seed?: number } = {},
): StageReport {
  const logging = { ...PLAIN_LOGGING, ...options.logging };
  const { columns } = logDraw(stretches, logging, new Dice(options.seed ?? 1));
  return classifyTrace(columns, { ...UNKNOWN_BOARD, ...options.settings });
}

/** The names of a report's stages in order. */
export const namesOf = (report: StageReport) => report.stages.map((s) => s.stage);

/** The marks of a report in order. */
export const marksOf = (report: StageReport) => report.marks.map((m) => m.mark);
