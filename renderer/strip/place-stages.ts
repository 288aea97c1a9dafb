import type { Stage } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { TickRange } from '../trace/trace-view.ts';

export interface PlacedStage {
  /** Index in the report. */
  readonly index: number;
  /** Per cent of the strip's width. */
  readonly left: number;
  readonly width: number;
}

/** Where each stage that reaches into `range` lies; the newest reaches to the newest sample. */
export function placeStages(
  stages: readonly Stage[],
  range: TickRange,
  nowS: number,
): readonly PlacedStage[] {
  const fromS = range.fromTick / TICKS_PER_SECOND;
  const toS = range.toTick / TICKS_PER_SECOND;
  const perSecond = 100 / (toS - fromS);
  return stages.flatMap((stage, index) => {
    const isNewest = index === stages.length - 1;
    const start = Math.max(fromS, stage.startS);
    const end = Math.min(toS, isNewest && !stage.final ? Math.max(stage.endS, nowS) : stage.endS);
    if (end <= start) return [];
    return [{ index, left: (start - fromS) * perSecond, width: (end - start) * perSecond }];
  });
}
