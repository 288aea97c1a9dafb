import type { BoardModel, Rail } from './board-model.ts';
import type { JudgedReading } from './rail-reading.ts';

/** Something that an injected rail reaches or may reach, with the volts it stands. */
export interface RailReach {
  readonly name: string;
  readonly standsV: number;
  readonly how: string;
}

/** Ohms between a rail and what it must not be joined to. */
export interface RailJoint {
  readonly rail: string;
  readonly other: string;
  readonly found: 'apart' | 'joined' | 'not-measured';
}

/**
 * What current put into a rail reaches by its tree: the rail itself, all that links and switches tie to
 * it, and, until ohms between them say that they are apart, the rails that a shorted upper switch
 * would join to it. The volts are nominals; part ratings come on top.
 */
export function injectionReach(
  board: BoardModel,
  railName: string,
  judged: readonly JudgedReading[],
): { readonly reach: readonly RailReach[]; readonly joints: readonly RailJoint[] } {
  const railOf = (name: string) => board.rails.find((rail) => rail.name === name);
  const reach = new Map<string, RailReach>();
  const joints: RailJoint[] = [];
  const visit = (rail: Rail | undefined, how: string) => {
    if (rail === undefined || reach.has(rail.name)) return;
    reach.set(rail.name, { name: rail.name, standsV: Math.abs(rail.nominalV), how });
    const isTied = rail.through === 'link' || rail.through === 'switch';
    for (const feed of rail.fedBy) {
      if (isTied) visit(railOf(feed), `through the ${rail.through} of ${rail.name}`);
      else joint(rail, railOf(feed));
    }
    for (const { reading, verdict } of judged) {
      const isHere = reading.rail === rail.name || reading.against === rail.name;
      if (reading.against === null || verdict !== 'shorted' || !isHere) continue;
      const other = reading.rail === rail.name ? reading.against : reading.rail;
      visit(railOf(other), `because ${rail.name} and ${other} are joined`);
    }
    for (const child of board.rails.filter(({ fedBy }) => fedBy.includes(rail.name))) {
      if (child.through === 'link' || child.through === 'switch') {
        visit(child, `through the ${child.through} of ${child.name}`);
      } else joint(child, rail);
    }
  };
  /** A pass element between the two: apart, joined, or nobody knows, and then it counts as joined. */
  const joint = (child: Rail, feed: Rail | undefined) => {
    if (feed === undefined || joints.some((j) => j.rail === child.name && j.other === feed.name))
      return;
    const reading = judged.findLast(
      ({ reading: r, verdict }) => isBetween(r, child.name, feed.name) && verdict !== 'cannot-tell',
    );
    const found =
      reading === undefined ? 'not-measured' : reading.verdict === 'shorted' ? 'joined' : 'apart';
    joints.push({ rail: child.name, other: feed.name, found });
    if (found === 'apart') return;
    const far = reach.has(child.name) ? feed : child;
    const how =
      found === 'joined'
        ? `because ${child.name} and ${feed.name} are joined`
        : `should the upper switch of ${child.name} be shorted: ohms between ${child.name} and ${feed.name} were not measured`;
    visit(far, how);
  };
  visit(railOf(railName), 'directly');
  return { reach: [...reach.values()], joints };
}

const isBetween = (reading: JudgedReading['reading'], a: string, b: string) =>
  (reading.rail === a && reading.against === b) || (reading.rail === b && reading.against === a);
