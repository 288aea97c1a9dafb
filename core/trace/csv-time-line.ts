import type { TimeSource } from './csv-time-source.ts';
import { badTraceFile } from './csv-trouble.ts';
import { type Sample, TICKS_PER_SECOND } from './sample.ts';

/** A row's readings before its tick is known. */
export type Readings = Omit<Sample, 'tick'>;

/** A row's time as the file tells it. */
export interface FileTime {
  readonly seconds: number;
  /** Whether it comes from a clock on the wall that shows no offset from UTC. */
  readonly isLocal: boolean;
  /** Whether it is a time of day without a date. */
  readonly isTimeOfDay: boolean;
}

/** Puts rows on one time line that starts at 0 with the first row. */
export interface TimeLine {
  /** `place` names the row and column for an error. */
  push(time: FileTime, readings: Readings, place: () => string): void;
  finish(): void;
}

const DAY_S = 86_400;
const SUMMER_TIME_S = 3_600;
/** More rows than this with one time: the time does not say when anything was. */
const MOST_AT_ONCE = 1_000_000;
const COUNTER_SPAN = 2 ** 32;

/**
 * Makes ticks of the times of a file.
 *
 * Rows that share one time (loggers that show whole seconds) are spread evenly from it towards
 * the next time, over at most the shortest step that the file has shown, so that a gap is not
 * filled. Times that go back are an error, but for three things that a clock does by itself:
 * midnight in a time without a date (more than half a day back), the end of summer time in local
 * time (back by one hour, give or take two steps), and a 32-bit counter of milli- or microseconds
 * that ran over. Throws `bad-trace-file` for any other step back and for a time that never moves.
 */
export function createTimeLine(source: TimeSource, use: (sample: Sample) => void): TimeLine {
  const counterS =
    source.kind === 'number' && source.scale <= 1e-3 ? COUNTER_SPAN * source.scale : 0;
  let waiting: Readings[] = [];
  let atS = 0;
  let firstS = 0;
  let addedS = 0;
  let shortestS = Number.POSITIVE_INFINITY;
  let placeOfFirst = '';

  const emit = (seconds: number, { volts, amps, regulation, outputOn }: Readings): void => {
    const tick = Math.round((seconds - firstS) * TICKS_PER_SECOND);
    use({ tick, volts, amps, regulation, outputOn });
  };
  const flush = (spanS: number): void => {
    const n = waiting.length;
    for (let i = 0; i < n; i += 1) emit(n === 1 ? atS : atS + (i * spanS) / n, waiting[i]!);
    waiting = [];
  };
  /** What must be added to a time that went back for a reason; null when there is none. */
  const reasonToGoBack = (backS: number, time: FileTime): number | null => {
    if (time.isTimeOfDay && backS > DAY_S / 2) return DAY_S;
    const slackS = 2 * (Number.isFinite(shortestS) ? shortestS : 1);
    if (time.isLocal && backS <= SUMMER_TIME_S && backS > SUMMER_TIME_S - slackS) {
      return SUMMER_TIME_S;
    }
    return counterS > 0 && backS > counterS * 0.9 && backS < counterS ? counterS : null;
  };

  return {
    push(time, readings, place) {
      let seconds = time.seconds + addedS;
      if (waiting.length === 0) {
        firstS = seconds;
        atS = seconds;
        placeOfFirst = place();
      } else if (seconds < atS) {
        const extra = reasonToGoBack(atS - seconds, time);
        if (extra === null) throw wentBack(atS - seconds, place());
        addedS += extra;
        seconds += extra;
      }
      if (seconds > atS) {
        const stepS = seconds - atS;
        if (stepS < shortestS) shortestS = stepS;
        flush(Math.min(stepS, shortestS));
        atS = seconds;
      } else if (waiting.length >= MOST_AT_ONCE) {
        throw standsStill(placeOfFirst);
      }
      waiting.push(readings);
    },
    finish() {
      if (waiting.length > 1 && !Number.isFinite(shortestS)) {
        if (source.kind === 'number') throw standsStill(placeOfFirst);
        shortestS = 1;
      }
      flush(shortestS);
    },
  };
}

function wentBack(backS: number, where: string) {
  const size =
    backS >= 1 ? `${Number(backS.toFixed(3))} s` : `${Number((backS * 1e3).toPrecision(3))} ms`;
  return badTraceFile(
    `The time goes back by ${size}`,
    where,
    'Sort or split the file there, so that each file holds one run in order.',
  );
}

function standsStill(where: string) {
  return badTraceFile(
    'The time stands still',
    where,
    'Name another column with --time, or say --rate-hz N for evenly spaced samples.',
  );
}
