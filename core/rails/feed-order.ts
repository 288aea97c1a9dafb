import type { Rail } from './board-model.ts';

/** Rails by index, with feeds before what they feed; or the names around a loop of feeds. */
export type FeedOrder =
  | { readonly ok: true; readonly order: readonly number[] }
  | { readonly ok: false; readonly loop: readonly string[] };

/** Orders rails from the input to the loads; a loop of feeds has no such order and is named. */
export function feedOrder(rails: readonly Pick<Rail, 'name' | 'fedBy'>[]): FeedOrder {
  const indexOf = new Map(rails.map(({ name }, index) => [name, index]));
  const order: number[] = [];
  const state = new Uint8Array(rails.length);
  const path: number[] = [];
  const visit = (index: number): readonly string[] | null => {
    if (state[index] === 2) return null;
    if (state[index] === 1) {
      return path.slice(path.indexOf(index)).map((at) => rails[at]?.name ?? '');
    }
    state[index] = 1;
    path.push(index);
    for (const feed of rails[index]?.fedBy ?? []) {
      const parent = indexOf.get(feed);
      const loop = parent === undefined ? null : visit(parent);
      if (loop !== null) return loop;
    }
    path.pop();
    state[index] = 2;
    order.push(index);
    return null;
  };
  for (let index = 0; index < rails.length; index++) {
    const loop = visit(index);
    if (loop !== null) return { ok: false, loop };
  }
  return { ok: true, order };
}
