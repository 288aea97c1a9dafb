import type { JobWalk } from '../rails/job-walk.ts';
import { measurementKeyOf } from '../rails/rail-measurement.ts';
import { type JudgedReading, type RailReading, sayVerdict } from '../rails/rail-reading.ts';
import { UNKNOWN } from '../units/format.ts';
import { formatReading } from '../units/format-reading.ts';
import type { RailPointRow, RailSection } from './record-content.ts';
import type { ShopClock } from './record-time.ts';

/** What was read at each point of a board's rails, before parts were changed and since; null when nothing was. */
export function railSection(job: JobWalk | null, clock: ShopClock): RailSection | null {
  if (job === null) return null;
  const isChanged = job.walkBefore !== null;
  const rows = job.rails.flatMap(({ rail, before, now }) => {
    const keys = [...new Set([...before.toReversed(), ...now.toReversed()].map(keyOf))];
    return keys.map((key, at): RailPointRow => {
      // Newest first: the first of a key is what stood in the end.
      const was = before.find((judged) => keyOf(judged) === key);
      const is = now.find((judged) => keyOf(judged) === key);
      return {
        rail: at === 0 ? rail.name : '',
        measured: sayMeasured((is ?? was)!.reading),
        before: sayFound(was, clock),
        since: sayFound(is, clock),
        isOddBefore: was?.isOdd ?? false,
        isOddSince: is?.isOdd ?? false,
      };
    });
  });
  if (rows.length === 0) return null;
  return { isChanged, rows, workings: workings(job), notes: notes(job) };
}

function keyOf({ reading }: JudgedReading): string {
  return `${measurementKeyOf(reading) ?? reading.point}/${reading.quantity}/${reading.state ?? ''}`;
}

function sayMeasured({ quantity, point, against, state }: RailReading): string {
  const what = {
    volts: point === 'output' ? 'Volts' : `Volts at ${point}`,
    ohms: against === null ? 'Ohms to ground' : `Ohms to ${against}`,
    diode: 'Diode reading',
  }[quantity];
  return state === null ? what : `${what}, ${state}`;
}

function sayFound(judged: JudgedReading | undefined, clock: ShopClock): RailPointRow['before'] {
  if (judged === undefined) return { value: UNKNOWN, verdict: '', at: '' };
  const { reading, verdict, isOdd } = judged;
  return {
    value: formatReading({ ...reading, decimals: null }),
    verdict: sayVerdict(verdict, { isOdd, against: reading.against }),
    at: clock.dateTime(reading.at),
  };
}

/** The working behind every verdict that is odd, and behind what could not be told. */
function workings({ rails }: JobWalk): string[] {
  return rails.flatMap(({ rail, before, now }) =>
    [...before.toReversed(), ...now.toReversed()]
      .filter(({ verdict, isOdd }) => isOdd || verdict === 'cannot-tell')
      .map(({ reading, verdict, isOdd, arithmetic, reason, source }) => {
        const words = sayVerdict(verdict, { isOdd, against: reading.against });
        const figures = arithmetic === '' ? '' : ` ${arithmetic}.`;
        return `${rail.name}, ${sayMeasured(reading).toLowerCase()}, ${words.charAt(0).toLowerCase()}${words.slice(1)}:${figures} ${reason} Limits: ${source}.`;
      }),
  );
}

function notes({ walk, walkBefore, taken, advised, again }: JobWalk): string[] {
  const lines = [(walkBefore ?? walk).summary];
  if (advised !== null) {
    const count = `${taken} ${taken === 1 ? 'measurement' : 'measurements'}`;
    lines.push(
      `${count} led there; the advice alone would have taken ${advised.count} to ${advised.fault}.`,
    );
  }
  for (const { text } of (walkBefore ?? walk).contradictions) lines.push(text);
  if (again.length > 0) {
    const points = again.map(
      ({ reading }) => `${reading.rail} (${sayMeasured(reading).toLowerCase()})`,
    );
    lines.push(`Not measured again after a part was changed: ${points.join(', ')}.`);
  }
  return lines;
}
