import { WakelineError } from '../errors.ts';
import { type BoardModel, pointOf, type Rail } from './board-model.ts';
import { judgeDiode } from './judge-diode.ts';
import { judgeBetween, judgeOhms } from './judge-ohms.ts';
import { judgeEnable, judgeVolts } from './judge-volts.ts';
import type { JudgedReading, RailReading } from './rail-reading.ts';

/**
 * Judges readings one by one and then in the light of each other: volts on a rail none of whose feeds
 * has any are back-fed.
 * @throws WakelineError `not-found` for a rail that the board does not have.
 */
export function judgeReadings(
  board: BoardModel,
  readings: readonly RailReading[],
): readonly JudgedReading[] {
  const byName = new Map(board.rails.map((rail) => [rail.name, rail]));
  const judged = readings.map((reading) => judgeReading(byName, reading));
  return judged.map((each) => backFed(each, judged, byName));
}

function judgeReading(byName: ReadonlyMap<string, Rail>, reading: RailReading): JudgedReading {
  const rail = railOf(byName, reading.rail, reading);
  if (reading.value === null && !reading.overload) {
    return {
      reading,
      verdict: 'not-measured',
      isOdd: false,
      arithmetic: '',
      reason: 'No value was taken.',
      source: 'the reading itself',
    };
  }
  if (reading.quantity === 'ohms') {
    const judgement =
      reading.against === null
        ? judgeOhms(reading, rail)
        : judgeBetween(reading, rail, railOf(byName, reading.against, reading));
    return { reading, ...judgement };
  }
  if (reading.quantity === 'diode') return { reading, ...judgeDiode(reading, rail) };
  if (reading.overload) {
    return {
      reading,
      verdict: 'cannot-tell',
      isOdd: true,
      arithmetic: 'over range',
      reason: 'Volts over range: choose a higher range, with care.',
      source: 'the reading itself',
    };
  }
  if (reading.point === 'enable') {
    return { reading, ...judgeEnable(reading, rail, pointOf(rail, 'enable')?.volts ?? null) };
  }
  const own = { nominalV: [rail.nominalV], tolerance: rail.tolerance, source: 'board model' };
  const feeds = rail.fedBy.map((name) => byName.get(name)).filter((feed) => feed !== undefined);
  const wanted =
    reading.point === 'output' || feeds.length === 0
      ? own
      : {
          nominalV: feeds.map(({ nominalV }) => nominalV),
          tolerance: Math.max(...feeds.map(({ tolerance }) => tolerance)),
          source: 'board model: the volts of what feeds it',
        };
  return { reading, ...judgeVolts(reading, rail, wanted) };
}

function backFed(
  judged: JudgedReading,
  all: readonly JudgedReading[],
  byName: ReadonlyMap<string, Rail>,
): JudgedReading {
  const { reading, verdict } = judged;
  const isVolts = reading.quantity === 'volts' && reading.point === 'output' && reading.powered;
  if (!isVolts || (verdict !== 'low' && verdict !== 'present')) return judged;
  const feeds = byName.get(reading.rail)?.fedBy ?? [];
  const isMissing = (feed: string) =>
    all.some(
      (other) =>
        other.reading.rail === feed &&
        other.reading.quantity === 'volts' &&
        other.reading.point === 'output' &&
        other.reading.state === reading.state &&
        other.verdict === 'missing' &&
        other.isOdd,
    );
  if (feeds.length === 0 || !feeds.every(isMissing)) return judged;
  return {
    ...judged,
    verdict: 'back-fed',
    isOdd: true,
    reason: `There are volts here while ${feeds.join(' and ')}, which feed it, have none: fed from somewhere else, or one of the readings is wrong.`,
  };
}

function railOf(byName: ReadonlyMap<string, Rail>, name: string, reading: RailReading): Rail {
  const rail = byName.get(name);
  if (rail !== undefined) return rail;
  throw new WakelineError({
    code: 'not-found',
    what: `The board model has no rail ${name}`,
    where: `reading ${reading.id}`,
    todo: 'Add the rail to the board, or give the reading another place.',
  });
}
