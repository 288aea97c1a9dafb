import type { BoardModel } from '../../../core/rails/board-model.ts';
import { supposedReading } from '../../../core/rails/count-advised.ts';
import { faultPosterior } from '../../../core/rails/fault-posterior.ts';
import { feedOrder } from '../../../core/rails/feed-order.ts';
import { type NextOptions, scoreMeasurements } from '../../../core/rails/next-measurements.ts';
import type { RailModel } from '../../../core/rails/rail-model.ts';
import type { JudgedReading } from '../../../core/rails/rail-reading.ts';
import { trueFault, truthOf } from './truth.ts';

/** What every measurement shows under every single fault, by the truth of the tests. */
export interface OutcomeTable {
  readonly keys: readonly string[];
  readonly faults: readonly string[];
  readonly outcomes: readonly (readonly string[])[];
  readonly signatures: readonly string[];
}

export function outcomeTable(model: RailModel): OutcomeTable {
  const keys = model.measurements.map(({ key }) => key);
  const faults = model.faults.map(({ key }) => key);
  const truths = faults.map((key) => truthOf(model.board, [trueFault(key)]));
  const outcomes = keys.map((key) => truths.map((truth) => truth(key)));
  const signatures = faults.map((_, h) => outcomes.map((row) => row[h]).join(','));
  return { keys, faults, outcomes, signatures };
}

/** Chooses the next measurement; gets what was read so far and which faults still fit it. */
export type Walker = (
  read: ReadonlyMap<string, string>,
  left: readonly number[],
) => string | undefined;

/** Measurements (and their effort) that a walker takes until only faults that show alike are left. */
export function walkTo(
  truth: number,
  { keys, outcomes, signatures }: OutcomeTable,
  walker: Walker,
  costOf: (key: string) => number = () => 1,
): { count: number; cost: number } {
  const at = new Map(keys.map((key, index) => [key, index]));
  const read = new Map<string, string>();
  let left = signatures.map((_, h) => h);
  let cost = 0;
  while (!left.every((h) => signatures[h] === signatures[left[0] ?? 0])) {
    const key = walker(read, left);
    if (key === undefined || read.has(key)) return { count: Number.NaN, cost: Number.NaN };
    const row = outcomes[at.get(key) ?? 0];
    const outcome = row?.[truth] ?? '';
    read.set(key, outcome);
    cost += costOf(key);
    left = left.filter((h) => row?.[h] === outcome);
  }
  return { count: read.size, cost };
}

/** The product's advice. */
export function advised(model: RailModel, options: NextOptions): Walker {
  return (read) => {
    const judged = [...read].flatMap(([key, verdict]) => {
      const measurement = model.measurements[model.measurementAt.get(key) ?? -1];
      return measurement === undefined
        ? []
        : [supposedReading(model, measurement, verdict as JudgedReading['verdict'])];
    });
    return scoreMeasurements(model, faultPosterior(model, judged), options)[0]?.measurement.key;
  };
}

/** From the input to the loads; at the first rail that is odd everything of it. Never in vain. */
export function inOrder(board: BoardModel, table: OutcomeTable): Walker {
  const order = feedOrder(board.rails);
  const names = (order.ok ? order.order : []).map((at) => board.rails[at]?.name ?? '');
  return (read, left) => {
    const odd = names.filter((name) => (read.get(`volts:${name}`) ?? 'present') !== 'present');
    const local = odd.flatMap((name) =>
      table.keys.filter((key) => key.split(':')[1] === name && !key.startsWith('volts:')),
    );
    const volts = names.map((name) => `volts:${name}`);
    return firstUseful([...local, ...volts, ...table.keys], read, left, table);
  };
}

/** Halves the rails that can still be at fault by their number, volts only; then as in order. */
export function halving(board: BoardModel, table: OutcomeTable): Walker {
  const thenInOrder = inOrder(board, table);
  return (read, left) => {
    const railsLeft = [...new Set(left.map((h) => (table.faults[h] ?? '').split(':')[1] ?? ''))];
    const splits = table.keys.flatMap((key, at) => {
      if (!key.startsWith('volts:') || read.has(key)) return [];
      const row = table.outcomes[at] ?? [];
      if (new Set(left.map((h) => row[h])).size < 2) return [];
      const odd = left.filter((h) => row[h] !== 'present');
      const missing = new Set(odd.map((h) => (table.faults[h] ?? '').split(':')[1])).size;
      return [{ key, off: Math.abs(missing - railsLeft.length / 2) }];
    });
    splits.sort((a, b) => a.off - b.off);
    return railsLeft.length > 1 && splits[0] !== undefined
      ? splits[0].key
      : thenInOrder(read, left);
  };
}

function firstUseful(
  keys: readonly string[],
  read: ReadonlyMap<string, string>,
  left: readonly number[],
  table: OutcomeTable,
): string | undefined {
  return keys.find((key) => {
    const row = table.outcomes[table.keys.indexOf(key)];
    return row !== undefined && !read.has(key) && new Set(left.map((h) => row[h])).size > 1;
  });
}
