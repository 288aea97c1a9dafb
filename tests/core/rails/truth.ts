import type { BoardModel } from '../../../core/rails/board-model.ts';

/** A fault of the truth, written as the product writes keys but read by nothing of it. */
export interface TrueFault {
  readonly kind: string;
  readonly rail: string;
  readonly other: string | null;
}

export type Shown = 'present' | 'missing' | 'high' | 'low' | 'as-known-good' | 'shorted';

export function trueFault(key: string): TrueFault {
  const [kind = '', rail = '', other = null] = key.split(':');
  return { kind, rail, other };
}

/**
 * What measurements show on a board with these faults, worked out rail by rail from its own
 * definition and sharing no code with the product: a rail is there when nothing of its own is
 * broken, one unbroken way leads to a feed that is there and not pulled down, and every enabling rail
 * is there. Enables only point to earlier rails on these boards, so plain recursion ends.
 */
export function truthOf(board: BoardModel, faults: readonly TrueFault[]): (key: string) => Shown {
  const rails = new Map(board.rails.map((rail) => [rail.name, rail]));
  const joins = faults.filter(({ kind }) => kind === 'joined');
  const has = (kind: string, rail: string) =>
    faults.some((f) => f.kind === kind && f.rail === rail);
  const isCut = (rail: string, feed: string) =>
    faults.some((f) => f.kind === 'link' && f.rail === rail && f.other === feed);
  const neighbours = new Map<string, string[]>(board.rails.map(({ name }) => [name, []]));
  for (const { name, through, fedBy } of board.rails) {
    for (const feed of through === 'link' ? fedBy : []) {
      if (isCut(name, feed)) continue;
      neighbours.get(name)?.push(feed);
      neighbours.get(feed)?.push(name);
    }
  }
  /** Every rail that unbroken links join to a short. */
  const grounded = new Set<string>();
  const reach = (rail: string) => {
    if (grounded.has(rail)) return;
    grounded.add(rail);
    for (const next of neighbours.get(rail) ?? []) reach(next);
  };
  for (const { kind, rail } of faults) if (kind === 'short') reach(rail);

  const known = new Map<string, boolean>();
  const isThere = (name: string): boolean => {
    const before = known.get(name);
    if (before !== undefined) return before;
    const rail = rails.get(name);
    const isSound = rail !== undefined && !grounded.has(name) && !has('source', name);
    /** A feed that a core pulls down starves everything else that it feeds. */
    const starves = (feed: string) => joins.some((f) => f.other === feed && f.rail !== name);
    const isThereNow =
      isSound &&
      !has('enable', name) &&
      (rail.fedBy.length === 0 ||
        rail.fedBy.some((f) => isThere(f) && !isCut(name, f) && !starves(f))) &&
      rail.enabledBy.every(isThere);
    known.set(name, isThereNow);
    return isThereNow;
  };
  const volts = (name: string): Shown => {
    if (!isThere(name)) return 'missing';
    if (joins.some((f) => f.rail === name)) return 'high';
    return joins.some((f) => f.other === name) ? 'low' : 'present';
  };
  const ohms = (name: string) => rails.get(name)?.expectedOhms?.median ?? Number.POSITIVE_INFINITY;

  return (key) => {
    const [what = '', name = '', other = ''] = key.split(':');
    const rail = rails.get(name);
    if (what === 'volts') return volts(name);
    if (what === 'input') {
      const ways = (rail?.fedBy ?? []).filter((f) => !isCut(name, f)).map(volts);
      return ways.find((v) => v === 'present') ?? ways.find((v) => v !== 'missing') ?? 'missing';
    }
    if (what === 'enable') {
      return !has('enable', name) && rail?.enabledBy.every(isThere) ? 'present' : 'missing';
    }
    if (what === 'ohms') {
      if (grounded.has(name)) return 'shorted';
      const partners = joins.flatMap((f) =>
        f.rail === name ? [f.other ?? ''] : f.other === name ? [f.rail] : [],
      );
      const isPulled = partners.some((p) => grounded.has(p) || ohms(p) < ohms(name));
      return isPulled ? 'shorted' : 'as-known-good';
    }
    const isJoined = joins.some((f) => f.rail === name && f.other === other);
    return isJoined || (grounded.has(name) && grounded.has(other)) ? 'shorted' : 'as-known-good';
  };
}
