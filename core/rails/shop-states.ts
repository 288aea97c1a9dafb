import { type BoardModel, statesOf } from './board-model.ts';
import type { BoardWarning } from './check-board.ts';

/** Names without their doubles; upper and lower case are one name, the first spelling is kept. */
export function distinctStates(names: readonly string[]): readonly string[] {
  const found = new Map<string, string>();
  for (const name of names.map((each) => each.trim())) {
    const key = name.toLowerCase();
    if (name !== '' && !found.has(key)) found.set(key, name);
  }
  return [...found.values()];
}

/** The states a board can be said to be in: the shop's own in its order, then what only the board names. */
export function statesToPick(board: BoardModel, defined: readonly string[]): readonly string[] {
  return distinctStates([...defined, ...statesOf(board)]);
}

/** Rails that name a state which the shop has not written down; none while it has written none. */
export function unknownStates(
  board: BoardModel,
  defined: readonly string[],
  rows: readonly number[],
): readonly BoardWarning[] {
  if (defined.length === 0) return [];
  const known = new Set(defined.map((name) => name.toLowerCase()));
  return board.rails.flatMap(({ name, states }, index) => {
    const strange = states.filter((state) => !known.has(state.toLowerCase()));
    if (strange.length === 0) return [];
    const text = `${name} is up in ${strange.join(' and ')}, which is none of the shop's states (${defined.join(', ')}).`;
    return [{ row: rows[index] ?? index + 1, text }];
  });
}
