import { type Interval, wilsonInterval } from '../evidence/intervals.ts';
import type { Proof } from '../evidence/past-case.ts';
import type { Outcome } from '../job/job.ts';
import { type Spread, spreadOf } from './spread.ts';

const DAY_MS = 86_400_000;

/** A job as the figures see it. Times in UTC ms. */
export interface FigureCase {
  readonly jobId: string;
  readonly number: number;
  /** Without case and blanks; null = board unknown. */
  readonly boardKey: string | null;
  readonly boardName: string | null;
  readonly serialKey: string;
  readonly takenInAt: number;
  /** When it was closed the first time and the last time; null while it never was. */
  readonly firstClosedAt: number | null;
  readonly closedAt: number | null;
  /** False = it is open again. */
  readonly isClosed: boolean;
  readonly verdict: Outcome['verdict'] | null;
  /** In words; null = nobody knows. */
  readonly cause: string | null;
  readonly proof: Proof;
  /** When the first part was lifted or fitted; null = none was. */
  readonly firstPartAt: number | null;
  /** Times that it was closed. */
  readonly closings: number;
  readonly comebackOf: string | null;
}

/** Parts taken from donors of one model. */
export interface DonorUse {
  readonly boardModel: string;
  readonly parts: number;
  readonly boards: number;
}

export interface CauseCount {
  readonly cause: string;
  readonly proved: number;
  readonly guessed: number;
}

export interface BoardCauses {
  readonly boardName: string | null;
  readonly jobs: number;
  readonly unsolved: number;
  /** Most often first. */
  readonly causes: readonly CauseCount[];
}

/** What a shop looks at, over a period. */
export interface ShopFigures {
  readonly takenIn: number;
  readonly closed: number;
  readonly verdicts: Readonly<Record<Outcome['verdict'], number>>;
  /** Hours from taking in to the first part touched, else to the closing. Null = none closed. */
  readonly diagnosisH: Spread | null;
  /** Of those, how many had no part touched. */
  readonly diagnosedWithoutPart: number;
  readonly boards: readonly BoardCauses[];
  readonly firstPass: FirstPass;
  readonly comebacks: Comebacks;
  readonly donors: readonly DonorUse[];
}

/** Repairs that held: closed as waking, not opened again, and not back within the days. */
export interface FirstPass {
  readonly withinDays: number;
  /** Closed as waking at least `withinDays` ago, with a serial number. */
  readonly count: number;
  readonly held: number;
  /** 95 % by Wilson; null when nothing can be counted. */
  readonly interval: Interval | null;
  /** Too young to tell, and without a serial number by which a comeback would be seen. */
  readonly tooYoung: number;
  readonly withoutSerial: number;
}

export interface Comebacks {
  /** Taken in within the period with a serial number that was here before. */
  readonly count: number;
  /** Days between the closing before and coming back; null when none was closed before. */
  readonly daysBetween: Spread | null;
}

/** A repair that held this long is called so. Common practice, no source. */
export const HELD_FOR_DAYS = 90;

/**
 * The figures of the jobs in `cases` (all jobs in the book) over `[fromMs, toMs)`: a job counts
 * where it was closed last, as a comeback where it was taken in. `nowMs` decides which repairs are
 * old enough to be judged: those younger are counted apart, also when they are back already, because
 * counting the failures among them only would make every young period look bad.
 */
export function shopFigures(o: {
  readonly cases: readonly FigureCase[];
  readonly donors: readonly DonorUse[];
  readonly fromMs: number;
  readonly toMs: number;
  readonly nowMs: number;
}): ShopFigures {
  const isWithin = (ms: number | null): ms is number =>
    ms !== null && ms >= o.fromMs && ms < o.toMs;
  const closed = o.cases.filter((one) => one.isClosed && isWithin(one.closedAt));
  const takenIn = o.cases.filter((one) => isWithin(one.takenInAt));
  const verdicts = { wakes: 0, partly: 0, 'not-repaired': 0, 'returned-untouched': 0 };
  for (const { verdict } of closed) if (verdict !== null) verdicts[verdict] += 1;
  // A board that went back untouched was not diagnosed.
  const diagnosed = closed.filter(({ verdict }) => verdict !== 'returned-untouched');
  const hours = diagnosed.map(
    (one) => ((one.firstPartAt ?? one.firstClosedAt ?? one.closedAt!) - one.takenInAt) / 3_600_000,
  );
  return {
    takenIn: takenIn.length,
    closed: closed.length,
    verdicts,
    diagnosisH: spreadOf(hours.map((h) => Math.max(0, h))),
    diagnosedWithoutPart: diagnosed.filter(({ firstPartAt }) => firstPartAt === null).length,
    boards: causesByBoard(closed),
    firstPass: firstPassOf(closed, o.cases, o.nowMs),
    comebacks: comebacksOf(takenIn, o.cases),
    donors: [...o.donors].sort((a, b) => b.parts - a.parts || compare(a.boardModel, b.boardModel)),
  };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function causesByBoard(closed: readonly FigureCase[]): BoardCauses[] {
  const boards = new Map<string, FigureCase[]>();
  for (const one of closed) {
    const key = one.boardKey ?? '';
    boards.set(key, [...(boards.get(key) ?? []), one]);
  }
  const told = [...boards.values()].map((jobs): BoardCauses => {
    const causes = new Map<string, CauseCount>();
    for (const { cause, proof } of jobs) {
      if (cause === null || proof === 'unsolved') continue;
      const before = causes.get(cause) ?? { cause, proved: 0, guessed: 0 };
      causes.set(cause, { ...before, [proof]: before[proof] + 1 });
    }
    return {
      boardName: jobs.at(-1)!.boardName,
      jobs: jobs.length,
      unsolved: jobs.filter(({ cause, proof }) => cause === null || proof === 'unsolved').length,
      causes: [...causes.values()].sort(
        (a, b) => b.proved - a.proved || b.guessed - a.guessed || compare(a.cause, b.cause),
      ),
    };
  });
  return told.sort((a, b) => b.jobs - a.jobs || compare(a.boardName ?? '', b.boardName ?? ''));
}

function firstPassOf(
  closed: readonly FigureCase[],
  cases: readonly FigureCase[],
  nowMs: number,
): FirstPass {
  const withinMs = HELD_FOR_DAYS * DAY_MS;
  const woke = closed.filter(({ verdict }) => verdict === 'wakes');
  const known = woke.filter(({ serialKey }) => serialKey !== '');
  // Of a job that was opened again the first closing is the repair that is judged.
  const closedFirst = (one: FigureCase): number => one.firstClosedAt ?? one.closedAt!;
  const old = known.filter((one) => nowMs - closedFirst(one) >= withinMs);
  const held = old.filter((one) => {
    if (one.closings > 1) return false;
    return !cases.some(
      (later) =>
        later.serialKey === one.serialKey &&
        later.takenInAt > closedFirst(one) &&
        later.takenInAt - closedFirst(one) <= withinMs,
    );
  });
  return {
    withinDays: HELD_FOR_DAYS,
    count: old.length,
    held: held.length,
    interval: old.length === 0 ? null : wilsonInterval(held.length, old.length),
    tooYoung: known.length - old.length,
    withoutSerial: woke.length - known.length,
  };
}

function comebacksOf(takenIn: readonly FigureCase[], cases: readonly FigureCase[]): Comebacks {
  const byId = new Map(cases.map((one) => [one.jobId, one]));
  const back = takenIn.filter(({ comebackOf }) => comebackOf !== null);
  const days = back.flatMap((one) => {
    const closedAt = byId.get(one.comebackOf!)?.closedAt ?? null;
    return closedAt === null ? [] : [Math.max(0, one.takenInAt - closedAt) / DAY_MS];
  });
  return { count: back.length, daysBetween: spreadOf(days) };
}
