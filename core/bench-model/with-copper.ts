import type { BoardPlan, NetPlan } from './board-plan.ts';

/** The copper of one net: places on it, joined by tracks of so many ohms. */
export interface CopperPlan {
  readonly net: string;
  /** Tracks from place to place; the net's own name is where its converter sits. */
  readonly tracks: readonly {
    readonly from: string;
    readonly to: string;
    readonly ohms: number;
  }[];
  /** Parts that sit at a place: a short in one of them is at that place. */
  readonly partAt: Readonly<Record<string, string>>;
}

/** What each place carries of its own: a ceramic's share, next to nothing to ground. */
const PLACE: Omit<NetPlan, 'name' | 'diodeV'> = { farads: 4.7e-6, offOhms: 1e12 };

/**
 * A board whose net has copper of its own: every place becomes a net that can be touched and clipped
 * to, every track a link, and a short in a part moves to where the part sits.
 */
export function withCopper(plan: BoardPlan, copper: CopperPlan): BoardPlan {
  const base = plan.nets.find(({ name }) => name === copper.net);
  const places = [...new Set(copper.tracks.flatMap(({ from, to }) => [from, to]))].filter(
    (place) => place !== copper.net,
  );
  return {
    ...plan,
    shelf: { ...plan.shelf, points: [...plan.shelf.points, ...places] },
    nets: [
      ...plan.nets,
      ...places.map((name) => ({ name, ...PLACE, diodeV: base?.diodeV ?? 0.5 })),
    ],
    links: [
      ...plan.links,
      ...copper.tracks.map(({ from, to, ohms }) => ({
        part: `track-${from}-${to}`,
        from,
        to,
        ohms,
      })),
    ],
    faults: plan.faults.map((fault) => {
      if (fault.kind !== 'short' || fault.net !== copper.net) return fault;
      return { ...fault, net: copper.partAt[fault.part] ?? fault.net };
    }),
  };
}
