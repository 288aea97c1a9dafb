import type { Hunt, HuntReading } from './hunt.ts';

/** A point's newest reading at no current, at the first current and at the second. */
export interface PointColumns {
  readonly pointId: string;
  readonly zero: HuntReading | null;
  readonly first: HuntReading | null;
  readonly second: HuntReading | null;
}

/** The readings of a hunt by the current that flowed. */
export interface HuntColumns {
  /** Median of the currents of each column, amps; null when it is empty. */
  readonly firstA: number | null;
  readonly secondA: number | null;
  readonly points: readonly PointColumns[];
  /** The reading at the first current that a point had before its newest one. */
  readonly again: readonly { readonly pointId: string; readonly reading: HuntReading }[];
  /** Readings at a third current: they are kept and not used. */
  readonly others: number;
}

/** Less than this is no current: what a supply shows with its output off (common practice, no source). */
const NO_CURRENT_A = 1e-3;
/** Currents within this share of each other belong to one column; a hot short moves its current. */
const SAME_CURRENT = 0.15;

/**
 * Sorts a hunt's readings into columns by the current itself, so that nobody has to say which one is
 * being taken: without current, at the current with most points (the earlier one of two alike), and at
 * the next.
 */
export function huntColumns({ points }: Pick<Hunt, 'points'>): HuntColumns {
  const all = points.flatMap(({ id, readings }) =>
    readings.map((reading) => ({ pointId: id, reading })),
  );
  const flowing = all
    .filter(({ reading }) => reading.amps >= NO_CURRENT_A)
    .sort((a, b) => a.reading.amps - b.reading.amps);
  const groups: (typeof flowing)[] = [];
  for (const one of flowing) {
    const group = groups.at(-1);
    const from = group?.[0]?.reading.amps ?? 0;
    if (group !== undefined && one.reading.amps <= from * (1 + SAME_CURRENT)) group.push(one);
    else groups.push([one]);
  }
  const size = (group: typeof flowing) => new Set(group.map(({ pointId }) => pointId)).size;
  const began = (group: typeof flowing) => Math.min(...group.map(({ reading }) => reading.takenAt));
  groups.sort((a, b) => size(b) - size(a) || began(a) - began(b));
  const [first = [], second = [], ...rest] = groups;
  const none = all.filter(({ reading }) => reading.amps < NO_CURRENT_A);
  return {
    firstA: medianA(first),
    secondA: medianA(second),
    points: points.map(({ id }) => ({
      pointId: id,
      zero: newestOf(none, id),
      first: newestOf(first, id),
      second: newestOf(second, id),
    })),
    again: points.flatMap(({ id }) => {
      const reading = newestFirst(first, id)[1];
      return reading === undefined ? [] : [{ pointId: id, reading }];
    }),
    others: rest.flat().length,
  };
}

interface Placed {
  readonly pointId: string;
  readonly reading: HuntReading;
}

function newestFirst(group: readonly Placed[], pointId: string): HuntReading[] {
  const own = group.filter((one) => one.pointId === pointId).map(({ reading }) => reading);
  return own.toSorted((a, b) => b.takenAt - a.takenAt);
}

const newestOf = (group: readonly Placed[], pointId: string): HuntReading | null =>
  newestFirst(group, pointId)[0] ?? null;

function medianA(group: readonly Placed[]): number | null {
  const amps = group.map(({ reading }) => reading.amps).sort((a, b) => a - b);
  return amps[Math.floor((amps.length - 1) / 2)] ?? null;
}
