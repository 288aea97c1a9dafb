import { RAIL_VERDICTS, type RailVerdict } from './rail-reading.ts';

/** What a point really is like under a fault, before the meter and chance have their say. */
export const CONDITIONS = [
  'up',
  'down',
  'shorted',
  'pulled',
  'starved',
  'over',
  'driven',
  'asleep',
  'sagging',
  'loaded',
  'ohms-normal',
  'ohms-shorted',
  'ohms-leaky',
  'ohms-lowered',
  'apart',
  'joined',
] as const;
export type Condition = (typeof CONDITIONS)[number];

/** Index of a condition, as the effect tables hold it. */
export const CONDITION: Readonly<Record<Condition, number>> = Object.fromEntries(
  CONDITIONS.map((condition, index) => [condition, index]),
) as Record<Condition, number>;

type Odds = Partial<Record<RailVerdict, number>>;

/**
 * P(verdict | condition): slips of the probe, boards that differ, supplies that limit themselves
 * (common practice, no source; nobody publishes such tables). `pulled` is dragged down by what it
 * feeds, `starved` is fed by a rail that is, `driven` sits at the volts of a higher rail that it is
 * joined to, `over` shares them with its own heavy load, `sagging` is fed weakly and gives way under
 * load, `loaded` is held up against a leak.
 */
const ODDS: Readonly<Record<Condition, Odds>> = {
  up: { present: 0.975, low: 0.018, high: 0.004, missing: 0.002, 'back-fed': 0.001 },
  down: { present: 0.0005, low: 0.06, high: 0.002, missing: 0.9075, 'back-fed': 0.03 },
  shorted: { present: 0.0005, low: 0.275, high: 0.001, missing: 0.7135, 'back-fed': 0.01 },
  pulled: { present: 0.004, low: 0.656, high: 0.002, missing: 0.336, 'back-fed': 0.002 },
  starved: { present: 0.06, low: 0.26, high: 0.002, missing: 0.66, 'back-fed': 0.018 },
  over: { present: 0.2, low: 0.25, high: 0.37, missing: 0.16, 'back-fed': 0.02 },
  driven: { present: 0.08, low: 0.02, high: 0.87, missing: 0.01, 'back-fed': 0.02 },
  asleep: { present: 0.03, low: 0.03, high: 0.005, missing: 0.9, 'back-fed': 0.035 },
  sagging: { present: 0.1, low: 0.84, high: 0.001, missing: 0.05, 'back-fed': 0.009 },
  loaded: { present: 0.4, low: 0.53, high: 0.002, missing: 0.065, 'back-fed': 0.003 },
  'ohms-normal': { 'as-known-good': 0.948, low: 0.03, high: 0.015, open: 0.005, shorted: 0.002 },
  'ohms-shorted': { 'as-known-good': 0.01, low: 0.15, high: 0.003, open: 0.002, shorted: 0.835 },
  'ohms-leaky': { 'as-known-good': 0.08, low: 0.7, high: 0.003, open: 0.002, shorted: 0.215 },
  'ohms-lowered': { 'as-known-good': 0.05, low: 0.3, high: 0.003, open: 0.002, shorted: 0.645 },
  apart: { 'as-known-good': 0.985, shorted: 0.015 },
  joined: { 'as-known-good': 0.02, shorted: 0.98 },
};

/** A diode reading says the same things of the rail, less surely. */
const DIODE_ODDS: Partial<Record<Condition, Odds>> = {
  'ohms-normal': { 'as-known-good': 0.9, low: 0.05, high: 0.03, open: 0.01, shorted: 0.01 },
  'ohms-shorted': { 'as-known-good': 0.03, low: 0.2, high: 0.005, open: 0.005, shorted: 0.76 },
  'ohms-leaky': { 'as-known-good': 0.3, low: 0.5, high: 0.01, open: 0.01, shorted: 0.18 },
  'ohms-lowered': { 'as-known-good': 0.25, low: 0.45, high: 0.01, open: 0.01, shorted: 0.28 },
};

/** How far below its limits a low reading is. */
export const LOW_GRADES = ['little', 'part', 'much'] as const;
export type LowGrade = (typeof LOW_GRADES)[number];

/**
 * Of the readings that are low, the shares that are low by a little, at some part of what belongs
 * there, and at little of it: a board that differs leaves most of it, a weak source a part, a short
 * or a dead converter next to nothing (common practice, no source).
 */
const GRADES: Readonly<Record<Condition, Readonly<Record<LowGrade, number>>>> = {
  up: { little: 0.93, part: 0.05, much: 0.02 },
  down: { little: 0.03, part: 0.12, much: 0.85 },
  shorted: { little: 0.02, part: 0.08, much: 0.9 },
  pulled: { little: 0.08, part: 0.35, much: 0.57 },
  starved: { little: 0.15, part: 0.3, much: 0.55 },
  over: { little: 0.2, part: 0.4, much: 0.4 },
  driven: { little: 0.7, part: 0.2, much: 0.1 },
  asleep: { little: 0.05, part: 0.15, much: 0.8 },
  sagging: { little: 0.6, part: 0.35, much: 0.05 },
  loaded: { little: 0.8, part: 0.17, much: 0.03 },
  'ohms-normal': { little: 0.92, part: 0.07, much: 0.01 },
  'ohms-shorted': { little: 0.03, part: 0.12, much: 0.85 },
  'ohms-leaky': { little: 0.15, part: 0.3, much: 0.55 },
  'ohms-lowered': { little: 0.15, part: 0.3, much: 0.55 },
  apart: { little: 0.4, part: 0.3, much: 0.3 },
  joined: { little: 0.4, part: 0.3, much: 0.3 },
};

export const VERDICTS = RAIL_VERDICTS.length;
/** P(verdict | condition) as a table of `CONDITIONS.length` rows of `VERDICTS` columns. */
export const OUTCOME_ODDS: Float64Array = table(ODDS);
export const DIODE_OUTCOME_ODDS: Float64Array = table({ ...ODDS, ...DIODE_ODDS });
/** The same where it is known how low a low reading is. */
export const LOW_ODDS: Readonly<Record<LowGrade, Float64Array>> = {
  little: table(lowPart('little')),
  part: table(lowPart('part')),
  much: table(lowPart('much')),
};

/** Verdicts that say nothing of the board. */
export function isMute(verdict: RailVerdict): boolean {
  return verdict === 'cannot-tell' || verdict === 'not-measured';
}

/** The verdict that a condition most often gives. */
export function usualVerdict(condition: number): RailVerdict {
  let best = 0;
  for (let verdict = 1; verdict < VERDICTS; verdict++) {
    const at = condition * VERDICTS;
    if ((OUTCOME_ODDS[at + verdict] ?? 0) > (OUTCOME_ODDS[at + best] ?? 0)) best = verdict;
  }
  return RAIL_VERDICTS[best] ?? 'cannot-tell';
}

function lowPart(grade: LowGrade): Readonly<Record<Condition, Odds>> {
  const entries = CONDITIONS.map((condition) => {
    const low = (ODDS[condition].low ?? 0) * GRADES[condition][grade];
    return [condition, { ...ODDS[condition], low }] as const;
  });
  return Object.fromEntries(entries) as Record<Condition, Odds>;
}

function table(odds: Readonly<Record<Condition, Odds>>): Float64Array {
  const rows = new Float64Array(CONDITIONS.length * VERDICTS);
  for (const [row, condition] of CONDITIONS.entries()) {
    for (const [column, verdict] of RAIL_VERDICTS.entries()) {
      rows[row * VERDICTS + column] = odds[condition][verdict] ?? 0;
    }
  }
  return rows;
}
