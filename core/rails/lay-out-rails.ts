import type { BoardModel } from './board-model.ts';
import { feedOrder } from './feed-order.ts';

/** Where a rail stands in the drawing: column 0 holds the inputs, rows count down from 0. */
export interface RailPlace {
  readonly rail: string;
  readonly column: number;
  readonly row: number;
}

/** Up and down passes of the crossing sweep; more change nothing visible on boards of this size. */
const SWEEPS = 8;

/**
 * Places rails from the input to the loads: a rail's column is its longest way from an input, its row
 * near the middle of what it is joined to, so that few lines cross (barycentre heuristic, Sugiyama,
 * Tagawa and Toda 1981, from memory).
 */
export function layOutRails(board: BoardModel): readonly RailPlace[] {
  const { rails } = board;
  const indexOf = new Map(rails.map(({ name }, index) => [name, index]));
  const parents = rails.map(({ fedBy }) =>
    fedBy.map((name) => indexOf.get(name)).filter((index) => index !== undefined),
  );
  const order = feedOrder(rails);
  const column = new Array<number>(rails.length).fill(0);
  for (const index of order.ok ? order.order : []) {
    const before = (parents[index] ?? []).map((parent) => column[parent] ?? 0);
    column[index] = before.length === 0 ? 0 : Math.max(...before) + 1;
  }
  const columns: number[][] = Array.from({ length: Math.max(0, ...column) + 1 }, () => []);
  for (let index = 0; index < rails.length; index++) columns[column[index] ?? 0]?.push(index);
  const children = rails.map((_, index) =>
    parents.flatMap((list, child) => (list.includes(index) ? [child] : [])),
  );
  const row = new Array<number>(rails.length).fill(0);
  const place = (members: readonly number[]) => {
    for (const [at, index] of members.entries()) row[index] = at;
  };
  columns.forEach(place);
  for (let sweep = 0; sweep < SWEEPS; sweep++) {
    const down = sweep % 2 === 0;
    for (const members of down ? columns : [...columns].reverse()) {
      const near = (index: number) => {
        const joined = (down ? parents : children)[index] ?? [];
        if (joined.length === 0) return row[index] ?? 0;
        return joined.reduce((sum, other) => sum + (row[other] ?? 0), 0) / joined.length;
      };
      const middle = new Map(members.map((index) => [index, near(index)]));
      members.sort((a, b) => (middle.get(a) ?? 0) - (middle.get(b) ?? 0) || a - b);
      place(members);
    }
  }
  return rails.map(({ name }, index) => ({
    rail: name,
    column: column[index] ?? 0,
    row: row[index] ?? 0,
  }));
}
