import type { Finding } from '../finding/finding.ts';
import type { BoardModel, Rail } from './board-model.ts';
import { bridgePairs } from './bridge-pairs.ts';
import type { AdvisedWalk } from './count-advised.ts';
import { type FaultPrior, NO_PRIOR } from './fault.ts';
import { judgeReadings } from './judge-readings.ts';
import { USUAL_NEXT } from './next-measurements.ts';
import { isMute } from './outcome-odds.ts';
import { readingFindings, walkFinding } from './rail-findings.ts';
import { measurementKeyOf } from './rail-measurement.ts';
import { prepareRails, type RailModel } from './rail-model.ts';
import type { JudgedReading, RailReading, RailVerdict } from './rail-reading.ts';
import { type RailWalk, walkRails } from './walk-rails.ts';

/** What is known when a job's rails are walked. */
export interface JobWalkFacts {
  /** With what known-good boards taught it. */
  readonly board: BoardModel;
  /** Every reading on its rails, oldest first. */
  readonly readings: readonly RailReading[];
  /** When parts were lifted or fitted, UTC ms: readings from before tell of another board. */
  readonly changedAt: readonly number[];
  /** The state that the board is in now; null when nobody names one. */
  readonly state: string | null;
  readonly liquid: boolean;
  /** What the supply showed, before the first change of parts and since the last. */
  readonly drawBefore: FaultPrior['draw'];
  readonly drawNow: FaultPrior['draw'];
  readonly cannotReach: readonly string[];
  readonly isPowered: boolean;
  /** How the advice would have gone, where that is known or worth the time; null when not. */
  readonly adviceFor: (model: RailModel, faultKeys: readonly string[]) => AdvisedWalk | null;
  /** UTC ms, for the findings. */
  readonly at: number;
}

/** A rail with what was read on it. */
export interface RailLine {
  readonly rail: Rail;
  /** From its newest readings since the last change of parts. */
  readonly verdict: RailVerdict;
  /** False when the verdict is what belongs there. */
  readonly isOdd: boolean;
  /** From the readings before the first change; null when no part was lifted or fitted. */
  readonly verdictBefore: RailVerdict | null;
  readonly isOddBefore: boolean;
  /** Newest first. */
  readonly now: readonly JudgedReading[];
  readonly before: readonly JudgedReading[];
}

/** A point that was measured before parts were changed and not since. */
export interface AgainPoint {
  readonly key: string;
  readonly reading: RailReading;
}

/** The rails of a job: what each reads, what is suspected, what to measure next. */
export interface JobWalk {
  readonly rails: readonly RailLine[];
  readonly walk: RailWalk;
  /** Where the diagnosis stood before the first change of parts; null when none was changed. */
  readonly walkBefore: RailWalk | null;
  readonly again: readonly AgainPoint[];
  /** Measurements taken to get to the diagnosis. */
  readonly taken: number;
  /** How many the advice would have taken to the same; null while nothing is settled. */
  readonly advised: { readonly count: number; readonly fault: string } | null;
  readonly findings: readonly Finding[];
}

/** Worst first: what a rail is called when its readings differ. */
const GRAVITY: readonly RailVerdict[] = [
  'shorted',
  'back-fed',
  'missing',
  'high',
  'low',
  'open',
  'present',
  'as-known-good',
  'cannot-tell',
  'not-measured',
];

/** A suspect has to be this probable before the advice's way to it is counted. */
const WORTH_COUNTING = 0.5;

/**
 * Walks a job's rails. Readings before the first change of parts make the diagnosis, those since the
 * last one show whether it held; both are judged by the same rules at the same points.
 */
export function walkJob(facts: JobWalkFacts): JobWalk {
  const { board, readings, changedAt, state, cannotReach, isPowered } = facts;
  const first = Math.min(...changedAt, Number.POSITIVE_INFINITY);
  const last = Math.max(...changedAt, Number.NEGATIVE_INFINITY);
  const isChanged = changedAt.length > 0;
  const before = judgeReadings(board, isChanged ? readings.filter(({ at }) => at < first) : []);
  const now = judgeReadings(
    board,
    readings.filter(({ at }) => at >= last),
  );
  const prior = { ...NO_PRIOR, liquid: facts.liquid };
  const model = prepareRails(
    board,
    state,
    { ...prior, draw: facts.drawNow },
    bridgePairs(board, now),
  );
  // What was read between two rails and could not be told would be no clearer a second time.
  const untold = now
    .filter(({ reading, verdict }) => reading.against !== null && isMute(verdict))
    .flatMap(({ reading }) => measurementKeyOf(reading) ?? []);
  const options = { ...USUAL_NEXT, cannotReach: new Set([...cannotReach, ...untold]), isPowered };
  const walk = walkRails(model, now, options);
  const modelBefore = isChanged
    ? prepareRails(
        board,
        stateOf(before) ?? state,
        { ...prior, draw: facts.drawBefore },
        bridgePairs(board, before),
      )
    : model;
  const walkBefore = isChanged ? walkRails(modelBefore, before, options) : null;
  const diagnosed = isChanged ? before : now;
  return {
    rails: board.rails.map((rail) => lineOf(rail, now, before, isChanged)),
    walk,
    walkBefore,
    again: isChanged ? toTakeAgain(before, now) : [],
    taken: diagnosed.filter(({ verdict }) => !isMute(verdict)).length,
    advised: diagnosed.length === 0 ? null : advisedWay(facts, modelBefore, walkBefore ?? walk),
    findings: [
      ...readingFindings(model, now),
      ...(now.length === 0
        ? []
        : [
            walkFinding(
              walk,
              now.map(({ reading }) => reading),
              facts.at,
            ),
          ]),
    ],
  };
}

/** The state that readings were taken in, when they agree on one. */
function stateOf(judged: readonly JudgedReading[]): string | null {
  const states = new Set(judged.flatMap(({ reading }) => reading.state ?? []));
  return states.size === 1 ? ([...states][0] ?? null) : null;
}

function lineOf(
  rail: Rail,
  now: readonly JudgedReading[],
  before: readonly JudgedReading[],
  isChanged: boolean,
): RailLine {
  const own = (judged: readonly JudgedReading[]) =>
    judged.filter(({ reading }) => reading.rail === rail.name).reverse();
  const here = own(now);
  const earlier = own(before);
  const worst = gravest(here);
  const worstBefore = gravest(earlier);
  return {
    rail,
    verdict: worst?.verdict ?? 'not-measured',
    isOdd: worst?.isOdd ?? false,
    verdictBefore: isChanged ? (worstBefore?.verdict ?? 'not-measured') : null,
    isOddBefore: worstBefore?.isOdd ?? false,
    now: here,
    before: earlier,
  };
}

/** The reading that names the rail: the newest of each measurement counts, the gravest of those. */
function gravest(newestFirst: readonly JudgedReading[]): JudgedReading | null {
  const newest = new Map<string, JudgedReading>();
  for (const each of newestFirst) {
    const { reading } = each;
    // Ohms to another rail name the pair, not the rail.
    if (reading.point !== 'output' || reading.against !== null) continue;
    const key = reading.quantity;
    if (!newest.has(key)) newest.set(key, each);
  }
  const rank = ({ verdict, isOdd }: JudgedReading) =>
    GRAVITY.indexOf(verdict) + (isOdd ? 0 : GRAVITY.length);
  return [...newest.values()].sort((a, b) => rank(a) - rank(b))[0] ?? null;
}

function toTakeAgain(
  before: readonly JudgedReading[],
  now: readonly JudgedReading[],
): AgainPoint[] {
  const keyOf = ({ reading }: JudgedReading) =>
    `${measurementKeyOf(reading) ?? reading.rail}/${reading.quantity}`;
  const taken = new Set(now.map(keyOf));
  const wanted = new Map<string, AgainPoint>();
  for (const each of before) {
    const key = keyOf(each);
    if (!taken.has(key)) wanted.set(key, { key, reading: each.reading });
  }
  return [...wanted.values()];
}

function advisedWay(
  { adviceFor }: JobWalkFacts,
  model: RailModel,
  walk: RailWalk,
): JobWalk['advised'] {
  const count = walk.double > 0.5 ? 2 : 1;
  const suspects = walk.suspects.slice(0, count);
  if (suspects.length === 0 || suspects.some(({ probability }) => probability < WORTH_COUNTING)) {
    return null;
  }
  const faults = suspects.flatMap(({ faults: [fault] }) => (fault === undefined ? [] : [fault]));
  const way = adviceFor(
    model,
    faults.map(({ key }) => key),
  );
  if (way === null) return null;
  return { count: way.keys.length, fault: faults.map(({ text }) => text).join(' and ') };
}
