import { WakelineError } from '../errors.ts';
import type { BoardModel } from './board-model.ts';
import { feedOrder } from './feed-order.ts';

/** Something to look at that does not stop the table from being used. */
export interface BoardWarning {
  readonly row: number;
  readonly text: string;
}

/**
 * Checks a board's tree and returns what is odd but allowed (an enable that is no rail, a rail that
 * makes more volts than feeds it).
 * @param rowOf table row of each rail, from 1, to name it in errors.
 * @throws WakelineError `bad-input` naming the row: no rails, an empty or double name, a feed that is
 * no rail, a rail that feeds itself, a loop of feeds, volts of 0, a tolerance outside 0 to 1.
 */
export function checkBoard(
  board: BoardModel,
  rowOf: (index: number) => number = (index) => index + 1,
): readonly BoardWarning[] {
  const refuse = (index: number, what: string, todo: string): never => {
    const name = board.rails[index]?.name;
    const where = `row ${rowOf(index)}${name === undefined || name === '' ? '' : `, rail ${name}`}`;
    throw new WakelineError({ code: 'bad-input', what, where, todo });
  };
  if (board.rails.length === 0) {
    throw new WakelineError({
      code: 'bad-input',
      what: 'The table holds no rails',
      where: `board ${board.name}`,
      todo: 'Five rails are enough to begin: the input, the main rail, and three that it feeds.',
    });
  }
  const first = new Map<string, number>();
  const warnings: BoardWarning[] = [];
  for (const [index, rail] of board.rails.entries()) {
    if (rail.name.trim() === '') refuse(index, 'This rail has no name', 'Give it one.');
    const before = first.get(rail.name);
    if (before !== undefined) {
      refuse(index, `${rail.name} is already in row ${rowOf(before)}`, 'Rename or delete one.');
    }
    first.set(rail.name, index);
    if (!Number.isFinite(rail.nominalV) || rail.nominalV === 0) {
      refuse(index, 'A rail of 0 V cannot be judged', 'Type its nominal volts.');
    }
    if (!(rail.tolerance > 0 && rail.tolerance < 1)) {
      refuse(index, 'A tolerance has to be above 0 % and below 100 %', 'Type it like 5%.');
    }
  }
  for (const [index, rail] of board.rails.entries()) {
    for (const feed of rail.fedBy) {
      if (feed === rail.name) refuse(index, `${feed} feeds itself`, 'Name what feeds it.');
      const parent = first.get(feed);
      if (parent === undefined) {
        const near = nearest(feed, [...first.keys()]);
        const hint = near === null ? 'Add a row for it, or correct the name.' : `Is it ${near}?`;
        refuse(index, `${feed} feeds it and is no rail of this table`, hint);
      }
      const feedV = board.rails[parent ?? 0]?.nominalV ?? 0;
      if (rail.through !== 'converter' && Math.abs(rail.nominalV) > Math.abs(feedV) * 1.03) {
        const text = `${rail.name} has more volts than ${feed}, which feeds it through a ${rail.through}: is it a converter?`;
        warnings.push({ row: rowOf(index), text });
      }
    }
    for (const enable of rail.enabledBy) {
      if (first.has(enable)) continue;
      const near = nearest(enable, [...first.keys()]);
      const text = `${enable} enables ${rail.name} and is no rail: taken as a signal${near === null ? '' : `. Is it ${near}?`}`;
      warnings.push({ row: rowOf(index), text });
    }
  }
  const order = feedOrder(board.rails);
  if (!order.ok) {
    const index = first.get(order.loop[0] ?? '') ?? 0;
    const round = [...order.loop, order.loop[0]].join(', fed by ');
    refuse(
      index,
      `Feeds go round in a loop: ${round}`,
      'Correct one "fed by". Only enables may loop.',
    );
  }
  return warnings;
}

/** The rail name that a typing slip away from `name`, if any. */
function nearest(name: string, names: readonly string[]): string | null {
  const wanted = name.toLowerCase();
  return (
    names.find((other) => other !== name && distance(other.toLowerCase(), wanted) <= 1) ?? null
  );
}

/** Edits between two texts, counted up to 2. */
function distance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 1) return 2;
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  const restA = a.slice(start);
  const restB = b.slice(start);
  if (restA === restB) return 0;
  const isOne =
    restA.slice(1) === restB.slice(1) || restA.slice(1) === restB || restA === restB.slice(1);
  return isOne ? 1 : 2;
}
