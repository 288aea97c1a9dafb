import { type BoardModel, PLAIN_COST, pointOf, type Rail } from './board-model.ts';
import type { BridgePair } from './bridge-pairs.ts';
import type { RailReading } from './rail-reading.ts';

/** Something that can be measured on a rail, whether or not it was. */
export interface RailMeasurement {
  /** `volts:MAIN`, `input:MAIN`, `enable:MAIN`, `ohms:MAIN`, `between:CORE:MAIN`. */
  readonly key: string;
  readonly what: 'volts' | 'input' | 'enable' | 'ohms' | 'between';
  readonly rail: string;
  readonly other: string | null;
  /** Where to put the probe; empty when the board lists no points. */
  readonly place: string;
  /** Effort of reaching the point, 1 in plain reach. */
  readonly effort: number;
}

/** Inputs and enables of rails without listed points have to be found on the schematic first. */
const UNLISTED_COST = 1.5;

/**
 * Everything that can be measured in the tree. A rail without listed points counts as reachable
 * everywhere; one with points only where they are. Ohms that could not be judged (a core without
 * known-good) are left out.
 */
export function listMeasurements(
  board: BoardModel,
  bridges: readonly BridgePair[] = [],
): readonly RailMeasurement[] {
  const byName = new Map(board.rails.map((rail) => [rail.name, rail]));
  const found: RailMeasurement[] = [];
  for (const rail of board.rails) {
    const output = reach(rail, 'output');
    if (output !== null) found.push(measurement('volts', rail, output));
    const isFedApart = rail.fedBy.length > 0 && rail.through !== 'link';
    const input = isFedApart ? reach(rail, 'input') : null;
    if (input !== null) found.push(measurement('input', rail, input));
    const hasEnable = rail.enabledBy.length > 0 || rail.points.some((p) => p.role === 'enable');
    const enable = hasEnable ? reach(rail, 'enable') : null;
    if (enable !== null) found.push(measurement('enable', rail, enable));
    if (output === null) continue;
    if (!rail.isCore || rail.expectedOhms !== null) found.push(measurement('ohms', rail, output));
    if (rail.through === 'switch' || rail.through === 'link') continue;
    for (const feed of rail.fedBy) {
      const parent = byName.get(feed);
      const other = parent === undefined ? null : reach(parent, 'output');
      if (parent === undefined || other === null) continue;
      if (Math.abs(parent.nominalV) <= Math.abs(rail.nominalV) * (1 + rail.tolerance)) continue;
      found.push(between(rail, output, parent, other));
    }
  }
  for (const { low, high } of bridges) {
    const [rail, parent] = [byName.get(low), byName.get(high)];
    if (rail === undefined || parent === undefined) continue;
    const [output, other] = [reach(rail, 'output'), reach(parent, 'output')];
    if (output !== null && other !== null) found.push(between(rail, output, parent, other));
  }
  return found;
}

type Reach = { readonly place: string; readonly effort: number };

function between(rail: Rail, output: Reach, parent: Rail, other: Reach): RailMeasurement {
  const place = [output.place, other.place].filter((each) => each !== '').join(' to ');
  const effort = output.effort + 0.5 * other.effort;
  return {
    ...measurement('between', rail, { place, effort }),
    other: parent.name,
    key: `between:${rail.name}:${parent.name}`,
  };
}

/** The measurement that a reading is one of; null for what the tree does not use. */
export function measurementKeyOf(reading: RailReading): string | null {
  if (reading.quantity === 'volts') {
    return `${reading.point === 'output' ? 'volts' : reading.point}:${reading.rail}`;
  }
  if (reading.point !== 'output') return null;
  if (reading.against !== null) return `between:${reading.rail}:${reading.against}`;
  return `ohms:${reading.rail}`;
}

function measurement(
  what: RailMeasurement['what'],
  rail: Rail,
  { place, effort }: { place: string; effort: number },
): RailMeasurement {
  return { key: `${what}:${rail.name}`, what, rail: rail.name, other: null, place, effort };
}

function reach(
  rail: Rail,
  role: 'output' | 'input' | 'enable',
): { place: string; effort: number } | null {
  if (rail.points.length === 0) {
    return { place: '', effort: role === 'output' ? PLAIN_COST : UNLISTED_COST };
  }
  const point = pointOf(rail, role);
  return point === null ? null : { place: point.name, effort: point.cost ?? PLAIN_COST };
}
