import { WakelineError } from '../errors.ts';
import { type BoardModel, pointOf, type Rail } from './board-model.ts';
import { judgeDiode } from './judge-diode.ts';
import { judgeBetween, judgeOhms } from './judge-ohms.ts';
import { judgeTogether } from './judge-together.ts';
import { judgeEnable, judgeVolts } from './judge-volts.ts';
import type { JudgedReading, RailReading } from './rail-reading.ts';

/**
 * Judges readings one by one and then in the light of each other, oldest first.
 * @throws WakelineError `not-found` for a rail that the board does not have.
 */
export function judgeReadings(
  board: BoardModel,
  readings: readonly RailReading[],
): readonly JudgedReading[] {
  const byName = new Map(board.rails.map((rail) => [rail.name, rail]));
  const judged = readings.map((reading) => judgeReading(byName, reading));
  return judgeTogether(judged, byName);
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
      share: null,
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
      share: null,
    };
  }
  if (reading.point === 'enable') {
    return { reading, ...judgeEnable(reading, rail, pointOf(rail, 'enable')?.volts ?? null) };
  }
  if (reading.point === 'output' && isImpossible(reading, byName)) {
    return {
      reading,
      verdict: 'cannot-tell',
      isOdd: true,
      arithmetic: '',
      reason: 'More volts than anything on this board can give: look at the range and the prefix.',
      source: 'the highest nominal of the board model',
      share: null,
    };
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

/** Volts ten times above the board's highest are a slip, not a rail. */
const IMPOSSIBLE_TIMES = 10;

function isImpossible({ value }: RailReading, byName: ReadonlyMap<string, Rail>): boolean {
  const highest = Math.max(...[...byName.values()].map(({ nominalV }) => Math.abs(nominalV)));
  return Math.abs(value ?? 0) > IMPOSSIBLE_TIMES * highest;
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
