import type { Gate } from '../checklist/gate.ts';
import type { Reach } from '../stages/stage.ts';
import type { WaitingFor } from './waiting-for.ts';

/** Ids are UUIDv7 text; times are UTC milliseconds. */
export type JobState = 'open' | 'waiting' | 'closed';
export type Liquid = 'no' | 'yes' | 'unknown';
/** What the customer cares about, asked at intake: decides how far to go. */
export type Matters = 'data' | 'device' | 'both' | 'not-asked';

/** How and where a board is fed in a run: compare like with like. */
export interface Feed {
  readonly point: 'charger-input' | 'battery-line' | 'main-rail' | 'board-input' | 'other';
  readonly cells: boolean;
  readonly screen: boolean;
  readonly drive: boolean;
  readonly note: string;
}

/** What is known of the board for reading its draw. Null = not known. */
export interface BoardFacts {
  readonly statedInputV: number | null;
  readonly statedLimitA: number | null;
  readonly runningA: number | null;
  readonly runsFlat: boolean | null;
}

export interface JobFields {
  /** Null = board unknown. */
  readonly boardModel: string | null;
  readonly serialNumber: string;
  readonly customer: string;
  readonly symptom: string;
  readonly liquid: Liquid;
  readonly matters: Matters;
  readonly earlierRepairs: string;
  readonly accessories: string;
  readonly promised: string;
  readonly board: BoardFacts;
  /** Which checklist template the job is walked with. */
  readonly template: string;
}

export interface Job extends JobFields {
  readonly id: string;
  /** The shop's running number, from 1. */
  readonly number: number;
  readonly state: JobState;
  readonly createdAt: number;
  readonly updatedAt: number;
  /** The earlier job with the same serial number, when this is a comeback. */
  readonly comebackOf: { readonly id: string; readonly number: number } | null;
  readonly outcome: Outcome | null;
}

/** A job as a line in the job book. */
export interface JobLine {
  readonly id: string;
  readonly number: number;
  readonly boardModel: string | null;
  readonly serialNumber: string;
  readonly symptom: string;
  readonly state: JobState;
  /** Null when it does not wait, or nobody said for what. */
  readonly waitingFor: WaitingFor | null;
  readonly createdAt: number;
  readonly updatedAt: number;
  readonly runs: number;
  readonly lastReach: Reach['stage'] | null;
  readonly isComeback: boolean;
  readonly verdict: Outcome['verdict'] | null;
}

export interface Outcome {
  readonly verdict: 'wakes' | 'partly' | 'not-repaired' | 'returned-untouched';
  readonly cause: string;
  readonly provedBy: string;
  readonly misledBy: string;
  readonly closedAt: number;
}

export type Quantity = 'volts' | 'ohms' | 'diode' | 'continuity' | 'amps';

/** One measured or typed value. `value` null with `overload` true reads "over range". */
export interface Reading {
  readonly id: string;
  readonly jobId: string | null;
  readonly itemId: string | null;
  readonly runId: string | null;
  readonly quantity: Quantity;
  readonly value: number | null;
  readonly overload: boolean;
  /** Digits after the point, in base units, that the instrument resolved; null when typed. */
  readonly decimals: number | null;
  /** Rail, test point or place, as a person names it. */
  readonly place: string;
  readonly expectedLow: number | null;
  readonly expectedHigh: number | null;
  readonly source: 'meter' | 'supply' | 'typed';
  readonly takenAt: number;
}

export interface ChecklistItem {
  readonly id: string;
  /** Key of the template's step, the same across jobs. */
  readonly step: string;
  readonly phase: string;
  readonly title: string;
  readonly needs: 'confirm' | 'caution' | 'note' | 'reading' | 'run' | 'photo' | 'part';
  readonly quantity: Quantity | null;
  readonly place: string;
  readonly caution: string | null;
  /** What stays refused until this is done, or skipped with a reason. */
  readonly gate: Gate;
  /** True when that is power. */
  readonly beforePower: boolean;
  readonly state: 'open' | 'done' | 'skipped';
  readonly at: number | null;
  readonly reason: string;
  /** Initials of who settled it; '' = nobody said. */
  readonly doneBy: string;
  readonly readings: readonly Reading[];
}

export interface Part {
  readonly id: string;
  readonly jobId: string;
  readonly action: 'lifted' | 'fitted';
  readonly designator: string;
  readonly kind: string;
  readonly value: string;
  readonly rail: string;
  readonly stateFound: string;
  /** Where the fitted part came from: a donor board, new stock. */
  readonly from: string;
  readonly at: number;
}

export type PartFields = Omit<Part, 'id' | 'jobId' | 'at'>;

/** Why a run stopped. `recovered` = the app died during it and found it again; `file-end` = read from a trace file. */
export type RunEnd =
  | 'output-off'
  | 'guard'
  | 'lost-instrument'
  | 'app-closed'
  | 'recovered'
  | 'file-end';

export interface Run {
  readonly id: string;
  readonly jobId: string | null;
  /**
   * `powered` = output on to output off; `idle` = what the bench recorded between; `injection` = current
   * put into the board to find a short, which is no wake-up: nothing learns from it or is laid beside it.
   */
  readonly kind: 'powered' | 'idle' | 'injection';
  readonly startedAt: number;
  readonly utcOffsetMin: number;
  readonly endedAt: number | null;
  readonly end: RunEnd | null;
  readonly feed: Feed;
  readonly setV: number | null;
  readonly limitA: number | null;
  readonly instrument: string;
  /** True when the pretend bench made it: it says so wherever the run is shown. */
  readonly pretend: boolean;
  readonly samples: number;
  readonly durationS: number;
  readonly reach: Reach | null;
  readonly peakA: number | null;
  readonly energyWh: number | null;
  /** The technician's word for it: before repair, after repair, or neither. */
  readonly role: 'before' | 'after' | null;
}

/** A job with all that hangs on it. */
export interface JobWhole {
  readonly job: Job;
  readonly items: readonly ChecklistItem[];
  readonly readings: readonly Reading[];
  readonly parts: readonly Part[];
  readonly runs: readonly Run[];
}
