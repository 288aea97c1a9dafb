import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import type { PointColumns } from '../../core/shorts/hunt-columns.ts';
import { formatQuantity, UNKNOWN } from '../../core/units/format.ts';

/** Which column a reading goes to that is taken now. */
export type Column = 'zero' | 'first' | 'second';

/** Two currents closer than this share of each other are one. */
const SAME_CURRENT = 0.15;

/** The column of a reading at this current, as `huntColumns` will sort it. */
export function columnAt(amps: number, firstA: number | null): Column {
  if (amps === 0) return 'zero';
  if (firstA === null) return 'first';
  return Math.abs(amps / firstA - 1) <= SAME_CURRENT ? 'first' : 'second';
}

/** The point to touch next: the first without a reading in this column; null when all have one. */
export function nextPointId(columns: readonly PointColumns[], column: Column): string | null {
  return columns.find((point) => point[column] === null)?.pointId ?? null;
}

export const millivolts = (volts: number | null | undefined): string =>
  volts == null ? UNKNOWN : formatQuantity(volts, 'V', 6, { prefix: -3 });

export const columnWords = (column: Column, { found }: HuntWhole): string =>
  column === 'zero'
    ? 'no current'
    : formatQuantity(column === 'first' ? found.columns.firstA : found.columns.secondA, 'A', null, {
        digits: 3,
      });
