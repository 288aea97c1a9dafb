import type { BoardModel } from '../../core/rails/board-model.ts';
import type { RailPlace } from '../../core/rails/lay-out-rails.ts';

const ARROWS = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End'] as const;

/**
 * The rail that a key leads to from another: left to what feeds it, right to what it feeds, up and
 * down among its column, Home to the first input, End to the furthest load. Null for other keys and
 * where there is none.
 */
export function stepAlong(
  board: BoardModel,
  places: readonly RailPlace[],
  from: string,
  key: string,
): string | null {
  const here = places.find(({ rail }) => rail === from);
  if (here === undefined || !ARROWS.some((arrow) => arrow === key)) return null;
  const nearest = (names: readonly string[]) =>
    places
      .filter(({ rail }) => names.includes(rail))
      .sort((a, b) => Math.abs(a.row - here.row) - Math.abs(b.row - here.row))[0]?.rail ?? null;
  if (key === 'ArrowLeft') {
    return nearest(board.rails.find(({ name }) => name === from)?.fedBy ?? []);
  }
  if (key === 'ArrowRight') {
    return nearest(board.rails.filter(({ fedBy }) => fedBy.includes(from)).map(({ name }) => name));
  }
  if (key === 'Home') return places.find(({ column }) => column === 0)?.rail ?? null;
  if (key === 'End') {
    const furthest = Math.max(...places.map(({ column }) => column));
    return places.find(({ column }) => column === furthest)?.rail ?? null;
  }
  const row = here.row + (key === 'ArrowUp' ? -1 : 1);
  return places.find((one) => one.column === here.column && one.row === row)?.rail ?? null;
}
