import type { Stage, StageId, TrackerSettings } from '../stages/stage.ts';
import type { TraceColumns } from '../trace/sample.ts';

/** What the samples of a stage show. Amps; null where there are too few. */
export interface StageLevels {
  readonly samples: number;
  readonly meanA: number | null;
  readonly lowA: number | null;
  readonly highA: number | null;
  /** Standard deviation about the mean. */
  readonly spreadA: number | null;
  /** Noise from one sample to the next: what is left of the spread without slopes and steps. */
  readonly noiseA: number | null;
  /** Smallest difference between two readings: the resolution of the supply. */
  readonly countA: number | null;
  readonly meanV: number | null;
}

/** A level or time that the stage was held against, with where it comes from. */
export interface Threshold {
  readonly name: string;
  readonly value: number | null;
  readonly unit: 'A' | 'V' | 's';
  readonly from: 'good runs' | 'set-point' | 'earlier runs on this supply' | 'not known';
  /** Whether this stage's name rests on it. */
  readonly decides: boolean;
}

/**
 * Levels and noise of a stage from its samples. Noise is the root of half the mean squared
 * successive difference (von Neumann 1941), which neither a slope nor a step moves much.
 */
export function stageLevels({ amps, volts }: TraceColumns): StageLevels {
  const told = amps.filter((value) => Number.isFinite(value));
  const fed = volts.filter((value) => Number.isFinite(value));
  const meanOf = (values: Float64Array) =>
    values.length === 0 ? null : values.reduce((sum, one) => sum + one, 0) / values.length;
  const meanA = meanOf(told);
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let [squares, steps, count] = [0, 0, Number.POSITIVE_INFINITY];
  for (let i = 0; i < told.length; i += 1) {
    const value = told[i]!;
    low = Math.min(low, value);
    high = Math.max(high, value);
    squares += (value - meanA!) ** 2;
    if (i === 0) continue;
    const step = Math.abs(value - told[i - 1]!);
    steps += step * step;
    // Doubles of decimals differ in their last bits: those are no counts.
    if (step > 1e-7 && step < count) count = step;
  }
  const several = told.length > 1;
  return {
    samples: amps.length,
    meanA,
    lowA: told.length === 0 ? null : low,
    highA: told.length === 0 ? null : high,
    spreadA: several ? Math.sqrt(squares / (told.length - 1)) : null,
    noiseA: several ? Math.sqrt(steps / (2 * (told.length - 1))) : null,
    countA: Number.isFinite(count) ? count : null,
    meanV: meanOf(fed),
  };
}

/** Stages whose name rests on each of the thresholds. */
const ON_RUNNING: readonly StageId[] = ['stalled', 'running', 'flat-high', 'flat-low', 'stepping'];
const ON_ZERO: readonly StageId[] = ['no-draw', 'flat-low', 'fell-back'];

/** What a stage was held against: the settings that the tracker was given when the run began. */
export function stageThresholds(
  stage: Pick<Stage, 'stage'>,
  settings: TrackerSettings,
): readonly Threshold[] {
  const on = (stages: readonly StageId[]) => stages.includes(stage.stage);
  const learned = (value: number | null) => (value === null ? 'not known' : 'good runs');
  const set = (value: number | null) => (value === null ? 'not known' : 'set-point');
  return [
    {
      name: 'Running level',
      value: settings.runningA,
      unit: 'A',
      from: learned(settings.runningA),
      decides: on(ON_RUNNING),
    },
    {
      name: 'Runs within',
      value: settings.wakesWithinS,
      unit: 's',
      from: learned(settings.wakesWithinS),
      decides: stage.stage === 'stalled',
    },
    {
      name: 'Zero floor',
      value: settings.zeroFloorA,
      unit: 'A',
      from: settings.zeroFloorA === null ? 'not known' : 'earlier runs on this supply',
      decides: on(ON_ZERO),
    },
    {
      name: 'Current limit',
      value: settings.limitA,
      unit: 'A',
      from: set(settings.limitA),
      decides: stage.stage === 'limited',
    },
    {
      name: 'Set volts',
      value: settings.setV,
      unit: 'V',
      from: set(settings.setV),
      decides: stage.stage === 'limited' || stage.stage === 'off',
    },
  ];
}
