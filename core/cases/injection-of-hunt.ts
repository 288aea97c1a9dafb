import { parsePart } from '../parts/parse-part.ts';
import { type BoardModel, CORE_MOST_V } from '../rails/board-model.ts';
import { injectionReach } from '../rails/injection-reach.ts';
import { judgeReadings } from '../rails/judge-readings.ts';
import type { RailReading } from '../rails/rail-reading.ts';
import { withoutLeads } from '../rails/without-leads.ts';
import type { Hunt } from '../shorts/hunt.ts';
import type { InjectionInput, ReachedThing } from '../shorts/injection.ts';

/** A part that the board's parts list puts on a rail. */
export interface PartOnRail {
  readonly designator: string;
  /** Kind, value and ratings as typed. */
  readonly text: string;
  readonly rail: string;
}

/**
 * What injecting into a hunt's rail is planned from: everything that the rail reaches by the board's
 * table, the parts that are known to sit there with the volts they stand, what was typed for this hunt,
 * and the newest ohms to ground. A board nobody entered leaves what was typed.
 */
export function injectionOfHunt(o: {
  readonly hunt: Pick<Hunt, 'rail' | 'ratings' | 'mostA' | 'leadOhm'>;
  readonly board: BoardModel | null;
  /** Readings on the board's rails, oldest first. */
  readonly readings: readonly RailReading[];
  readonly parts: readonly PartOnRail[];
  readonly cellAttached: boolean | null;
  readonly supply: InjectionInput['supply'];
}): InjectionInput {
  const { hunt, board, readings } = o;
  const rail = board?.rails.find(({ name }) => name === hunt.rail);
  const { reach: railsReached, joints } =
    board === null || rail === undefined
      ? { reach: [], joints: [] }
      : injectionReach(board, rail.name, judgeReadings(board, readings));
  const reach: ReachedThing[] = [
    ...railsReached,
    ...hunt.ratings.map(({ name, standsV }) => ({ name, standsV, how: 'as typed for this hunt' })),
    ...railsReached.flatMap(({ name, how }) => ratedParts(o.parts, name, how)),
  ];
  const lowestV = Math.min(...reach.map(({ standsV }) => standsV));
  const ground = readings.findLast(
    (one) =>
      one.rail === hunt.rail &&
      one.quantity === 'ohms' &&
      one.against === null &&
      one.point === 'output',
  );
  return {
    rail: hunt.rail,
    // A rail in no table may be a core, and by its volts it looks like one.
    isCore: rail?.isCore ?? lowestV <= CORE_MOST_V,
    reach,
    joints,
    cellAttached: o.cellAttached,
    ohmToGround: ground?.value == null ? null : withoutLeads(ground.value, ground),
    leadOhm: hunt.leadOhm,
    mostA: hunt.mostA,
    supply: o.supply,
  };
}

function ratedParts(parts: readonly PartOnRail[], rail: string, how: string): ReachedThing[] {
  return parts.flatMap((part) => {
    if (part.rail.trim().toLowerCase() !== rail.toLowerCase()) return [];
    const standsV = parsePart(part.text).spec.ratedV;
    if (standsV === null || !(standsV > 0)) return [];
    const where = how === 'directly' ? `on ${rail}` : `on ${rail}, ${how}`;
    return [{ name: part.designator, standsV, how: where }];
  });
}
