/** What the draw is doing over a stretch of a run. A stage says what was seen, never what is broken. */
export const STAGE_IDS = [
  'off',
  'no-draw',
  'flat-low',
  'stepping',
  'stalled',
  'running',
  'flat-high',
  'creeping',
  'limited',
  'cycling',
  'fell-back',
] as const;
export type StageId = (typeof STAGE_IDS)[number];

/** The words a stage is shown with. */
export const STAGE_WORDS: Readonly<Record<StageId, string>> = {
  off: 'Output off',
  'no-draw': 'No draw',
  'flat-low': 'Flat low draw',
  stepping: 'Stepping',
  stalled: 'Stalled',
  running: 'Running',
  'flat-high': 'Flat high draw',
  creeping: 'Creeping',
  limited: 'Current limit',
  cycling: 'Cycling',
  'fell-back': 'Fell back',
};

/** Moments beside the stages. */
export const MARK_IDS = [
  'inrush',
  'feed-change',
  'back-fed',
  'gap',
  'wake-request',
  'output-on',
  'output-off',
  'guard-trip',
  'note',
] as const;
export type MarkId = (typeof MARK_IDS)[number];

/** The words a mark is shown with. */
export const MARK_WORDS: Readonly<Record<MarkId, string>> = {
  inrush: 'Inrush',
  'feed-change': 'Feed change',
  'back-fed': 'Back-fed',
  gap: 'Gap',
  'wake-request': 'Wake request',
  'output-on': 'Output on',
  'output-off': 'Output off',
  'guard-trip': 'Guard trip',
  note: 'Note',
};

/** One stretch of a run. Times are seconds from the run's anchor; `endS` of the newest moves on. */
export interface Stage {
  readonly stage: StageId;
  readonly startS: number;
  readonly endS: number;
  readonly meanA: number | null;
  readonly meanV: number | null;
  /** 0 to 1: how sure the tracker is of the name, not of the boundaries. */
  readonly confidence: number;
  /** In words and numbers, why this name. */
  readonly reason: string;
  /** Seconds a cycle, for `cycling`. */
  readonly periodS: number | null;
  /**
   * Standard uncertainty of `meanA` in amps: the readings' scatter over the root of their number, and
   * the last digit as a rectangular distribution (JCGM 100:2008, 4.2.3 and F.2.2.1). The
   * instrument's own error is not in it. Missing where it is not known, as in reports of earlier trackers.
   */
  readonly plusMinusA?: number;
  /**
   * Root mean square of what the draw moves by beside its level or slope, in amps; missing where
   * the ammeter's own noise explains it.
   */
  readonly rippleA?: number;
  /** True once the next stretch is confirmed or the run has ended: it will not be renamed. */
  readonly final: boolean;
}

/** A moment on a run. `text` is what was noted or seen, with its numbers. */
export interface Mark {
  readonly mark: MarkId;
  readonly atS: number;
  readonly text: string;
}

/** A level change inside a staircase. */
export interface Step {
  readonly atS: number;
  readonly fromA: number;
  readonly toA: number;
  /**
   * Seconds that the rise (or fall) took at most: from the last reading at the old level to the first
   * that had gone nine tenths of the way. Never less than the time between two readings. Missing
   * where readings are missing, and in reports of earlier trackers.
   */
  readonly riseS?: number;
  /** Standard uncertainty of the step's height in amps, as of `Stage.plusMinusA`. */
  readonly plusMinusA?: number;
}

/** A change of what the supply was set to, in the midst of a run. */
export interface FeedChange {
  readonly atS: number;
  readonly setV: number | null;
  readonly limitA: number | null;
}

/** How far a run got: furthest of no draw, flat low, stepping, running; and the level held. */
export interface Reach {
  readonly stage: 'off' | 'no-draw' | 'flat-low' | 'stepping' | 'running';
  readonly heldA: number | null;
  readonly heldW: number | null;
  /** `heldA` as a share of the board's running level (by watts where feed volts differ); null when unknown. */
  readonly share: number | null;
}

/** Everything the tracker says of a run so far. */
export interface StageReport {
  readonly trackerVersion: number;
  readonly samples: number;
  readonly durationS: number;
  readonly reach: Reach;
  readonly stages: readonly Stage[];
  readonly marks: readonly Mark[];
  readonly steps: readonly Step[];
  readonly energyWh: number | null;
  readonly chargeAh: number | null;
  readonly peakA: number | null;
  /** Set-points that changed during the run, for whoever classifies it again. */
  readonly feedChanges?: readonly FeedChange[];
}

/**
 * What the tracker is told of the board and the feed. Each threshold comes from this board's
 * known-good runs, else the board model's notes, else defaults.
 */
export interface TrackerSettings {
  /** Set-point of the feed in volts; null when not known (a trace without set-points). */
  readonly setV: number | null;
  /** Current limit in amps; null when not known. */
  readonly limitA: number | null;
  /** Running level of this board in amps at `runningV`; null when not known. */
  readonly runningA: number | null;
  /** Volts at which `runningA` was seen; null = at `setV`. */
  readonly runningV: number | null;
  /** Whether this board is known to run flat; null when not known. */
  readonly runsFlat: boolean | null;
  /** Zero floor in amps learned from earlier runs on this supply; null = learn from this run. */
  readonly zeroFloorA: number | null;
  /** Seconds that known-good runs of this board take to running; null when not known. */
  readonly wakesWithinS: number | null;
}

/** Settings when nothing is known of the board. */
export const UNKNOWN_BOARD: TrackerSettings = {
  setV: null,
  limitA: null,
  runningA: null,
  runningV: null,
  runsFlat: null,
  zeroFloorA: null,
  wakesWithinS: null,
};
