import { STAGE_WORDS, type Stage } from '../stages/stage.ts';

/** What a soak is asked to prove. Amps null = no bound. */
export interface SoakCriteria {
  readonly minutes: number;
  readonly lowA: number | null;
  readonly highA: number | null;
}

/** How a soak stands, in numbers. */
export interface SoakNumbers {
  /** Seconds since it began that were watched, without the gaps. */
  readonly watchedS: number;
  readonly longestGapS: number;
  readonly lowestA: number | null;
  readonly highestA: number | null;
  readonly meanA: number | null;
  /** Readings outside the bounds. */
  readonly outside: number;
  readonly readings: number;
}

export interface SoakVerdict {
  readonly passed: boolean;
  /** In words and numbers, fit for the checklist. */
  readonly words: string;
  readonly numbers: SoakNumbers;
}

/** Judges a soak as it goes on. */
export interface SoakJudge {
  readonly numbers: SoakNumbers;
  /** A reading of the supply; `amps` null = not told. Answers the verdict once there is one. */
  see(reading: { atS: number; amps: number | null; outputOn: boolean | null }): SoakVerdict | null;
  /** The newest stage of the run. */
  seeStage(stage: Pick<Stage, 'stage' | 'startS' | 'endS' | 'confidence'>): SoakVerdict | null;
  /** The run ended, the instrument was lost, or a person stopped it. */
  stop(atS: number, why: string): SoakVerdict;
}

/** A draw out of bounds for longer than this fails; a single reading beyond is a peak, and counted. */
const OUTSIDE_S = 1;
/** A silence longer than this was not watched, and a soak that was not watched proves nothing. */
const GAP_S = 5;
/** A board whose stage is any other, and surely, is not running. Stepping is how it came to run. */
const RUNS: ReadonlySet<string> = new Set(['running', 'stepping']);
/** A stage that the tracker is unsure of, or has only just named, waits for its next word. */
const SURE = 0.6;
const LASTS_S = 2;

/**
 * Starts a soak at `startS` of a run. It fails at the first of: the output off, a stage that surely
 * is not running for 2 s, the draw outside its bounds for 1 s, 5 s without a reading, the run's end. It
 * passes when the minutes are full. Common practice, no source.
 */
export function createSoakJudge(criteria: SoakCriteria, startS: number): SoakJudge {
  const wholeS = criteria.minutes * 60;
  let lastS = startS;
  let longestGapS = 0;
  let unwatchedS = 0;
  let lowestA: number | null = null;
  let highestA: number | null = null;
  let sumA = 0;
  let readings = 0;
  let outside = 0;
  let outsideSinceS: number | null = null;
  let verdict: SoakVerdict | null = null;

  const numbers = (): SoakNumbers => ({
    watchedS: Math.max(0, lastS - startS - unwatchedS),
    longestGapS,
    lowestA,
    highestA,
    meanA: readings === 0 ? null : sumA / readings,
    outside,
    readings,
  });

  function end(passed: boolean, why: string): SoakVerdict {
    const now = numbers();
    verdict ??= { passed, words: wordsOf(passed, why, criteria, now), numbers: now };
    return verdict;
  }

  const isOutside = (amps: number) =>
    (criteria.lowA !== null && amps < criteria.lowA) ||
    (criteria.highA !== null && amps > criteria.highA);

  return {
    get numbers() {
      return numbers();
    },
    see({ atS, amps, outputOn }) {
      if (verdict !== null) return verdict;
      const gapS = atS - lastS;
      longestGapS = Math.max(longestGapS, gapS);
      lastS = atS;
      if (gapS > GAP_S) {
        unwatchedS += gapS;
        return end(false, `nothing was read for ${gapS.toFixed(0)} s`);
      }
      if (outputOn === false) return end(false, 'the output went off');
      if (amps !== null) {
        readings += 1;
        sumA += amps;
        lowestA = Math.min(lowestA ?? amps, amps);
        highestA = Math.max(highestA ?? amps, amps);
        if (isOutside(amps)) {
          outside += 1;
          outsideSinceS ??= atS;
          const forS = atS - outsideSinceS;
          if (forS >= OUTSIDE_S) {
            return end(false, `the draw was at ${ampsWords(amps)} for ${forS.toFixed(1)} s`);
          }
        } else outsideSinceS = null;
      }
      return atS - startS >= wholeS ? end(true, '') : null;
    },
    seeStage({ stage, startS: stageS, endS, confidence }) {
      if (verdict !== null) return verdict;
      // A staircase that begins during the soak is a board that has started anew.
      const runs = RUNS.has(stage) && !(stage === 'stepping' && stageS > startS);
      if (runs || confidence < SURE || endS - stageS < LASTS_S) return null;
      const atS = Math.max(0, stageS - startS);
      return end(false, `${STAGE_WORDS[stage].toLowerCase()} after ${minutesWords(atS)}`);
    },
    stop(atS, why) {
      lastS = Math.max(lastS, atS);
      return end(false, why);
    },
  };
}

const ampsWords = (amps: number) => `${Number(amps.toPrecision(4))} A`;
const minutesWords = (s: number) =>
  s < 60 ? `${s.toFixed(0)} s` : `${Number((s / 60).toFixed(1))} min`;

function boundsWords({ lowA, highA }: SoakCriteria): string {
  if (lowA !== null && highA !== null) return `, bounds ${ampsWords(lowA)} to ${ampsWords(highA)}`;
  if (lowA !== null) return `, at least ${ampsWords(lowA)} asked`;
  return highA === null ? '' : `, at most ${ampsWords(highA)} asked`;
}

function wordsOf(passed: boolean, why: string, asked: SoakCriteria, now: SoakNumbers): string {
  const ran = `${minutesWords(now.watchedS)} of ${asked.minutes} min`;
  const draw =
    now.lowestA === null || now.highestA === null || now.meanA === null
      ? 'no draw was read'
      : `draw ${ampsWords(now.lowestA)} to ${ampsWords(now.highestA)}, mean ${ampsWords(now.meanA)}`;
  const beyond = now.outside === 0 ? '' : `; ${now.outside} of ${now.readings} readings outside`;
  const head = passed ? `Soak passed: ${ran}` : `Soak failed: ${why}; ${ran}`;
  return `${head}; ${draw}${boundsWords(asked)}${beyond}.`;
}
