import type { Feed, Job, Liquid, Matters, Outcome, Quantity, Reading, RunEnd } from '../job/job.ts';
import type { Reach, StageId } from '../stages/stage.ts';

export const LIQUID_WORDS: Readonly<Record<Liquid, string>> = {
  no: 'none known',
  yes: 'yes',
  unknown: 'not known',
};

export const MATTERS_WORDS: Readonly<Record<Matters, string>> = {
  data: 'the data on it',
  device: 'the device',
  both: 'the data and the device',
  'not-asked': 'not asked',
};

export const STATE_WORDS: Readonly<Record<Job['state'], string>> = {
  open: 'open',
  waiting: 'waiting',
  closed: 'closed',
};

export const VERDICT_WORDS: Readonly<Record<Outcome['verdict'], string>> = {
  wakes: 'Wakes and runs',
  partly: 'Works in part',
  'not-repaired': 'Not repaired',
  'returned-untouched': 'Returned untouched',
};

/** How a job ended, as a sentence for its owner. */
export const ENDING_WORDS: Readonly<Record<Outcome['verdict'], string>> = {
  wakes: 'It wakes and runs again.',
  partly: 'It works again in part.',
  'not-repaired': 'It could not be repaired.',
  'returned-untouched': 'It goes back as it came.',
};

export const FEED_POINT_WORDS: Readonly<Record<Feed['point'], string>> = {
  'charger-input': 'charger input',
  'battery-line': 'battery line',
  'main-rail': 'main rail',
  'board-input': 'board input',
  other: 'another point',
};

export const END_WORDS: Readonly<Record<RunEnd, string>> = {
  'output-off': 'output switched off',
  guard: 'guard switched the output off',
  'lost-instrument': 'instrument lost',
  'app-closed': 'app closed',
  recovered: 'cut short and recovered at the next start',
  'file-end': 'end of the trace file',
};

export const QUANTITY_WORDS: Readonly<Record<Quantity, string>> = {
  volts: 'Volts',
  ohms: 'Resistance',
  diode: 'Diode reading',
  continuity: 'Continuity',
  amps: 'Amps',
};

export const SOURCE_WORDS: Readonly<Record<Reading['source'], string>> = {
  meter: 'meter',
  supply: 'supply',
  typed: 'typed in',
};

/** How far a run got, to follow "reached". */
export const REACH_WORDS: Readonly<Record<Reach['stage'], string>> = {
  off: 'nothing: the output stayed off',
  'no-draw': 'no draw',
  'flat-low': 'flat low draw',
  stepping: 'stepping',
  running: 'running',
};

/** What a stage means, for a reader who never sat at a bench. A stage never names a fault. */
export const STAGE_MEANINGS: Readonly<Record<StageId, string>> = {
  off: "The supply's output was off.",
  'no-draw': 'Power was there and the board took nothing.',
  'flat-low': 'A small, steady draw: nothing on the board was waking up yet.',
  stepping: 'The draw climbed in steps, as parts of the board started in order.',
  stalled: 'The draw climbed, then stayed flat short of what this board takes when it runs.',
  running: 'The draw was where this board runs.',
  'flat-high': 'A steady draw well above what this board takes when it runs.',
  creeping: 'The draw rose or fell slowly, without steps.',
  limited: 'The supply held the current at its limit.',
  cycling: 'The same rise and fall, again and again.',
  'fell-back': 'The draw had climbed, then dropped back and stayed low.',
};
