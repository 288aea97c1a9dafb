import { describe, expect, it } from 'vitest';
import type { Reading } from '../../../core/job/job.ts';
import { adoptReading } from '../../../core/rails/adopt-reading.ts';
import { readRailTable } from '../../../core/rails/rail-table.ts';

const { board } = readRailTable('VIN\t19\nMAIN\t8.6\t\tVIN\t\t\t\tC71; in F2.1; en U7.3', 'Wren');
const reading = (fields: Partial<Reading>): Reading => ({
  id: 'r',
  jobId: 'j',
  itemId: null,
  runId: null,
  quantity: 'volts',
  value: 8.6,
  overload: false,
  decimals: 2,
  place: 'MAIN',
  expectedLow: null,
  expectedHigh: null,
  source: 'typed',
  takenAt: 7,
  ...fields,
});

describe('a reading without a rail', () => {
  it.each([
    ['main', 'output'],
    [' c71 ', 'output'],
    ['F2.1', 'input'],
    ['u7.3', 'enable'],
  ])('at "%s" stands on the %s of the rail', (place, point) => {
    expect(adoptReading(board, reading({ place }), 'powered')).toMatchObject({
      rail: 'MAIN',
      point,
      powered: true,
      at: 7,
    });
  });

  it('stands alone at any other place, in amps, and in ohms at an enable', () => {
    expect(adoptReading(board, reading({ place: 'Main rail' }), null)).toBeNull();
    expect(adoptReading(board, reading({ place: '' }), null)).toBeNull();
    expect(adoptReading(board, reading({ quantity: 'amps' }), null)).toBeNull();
    expect(adoptReading(board, reading({ quantity: 'ohms', place: 'U7.3' }), null)).toBeNull();
  });

  it('in volts beside a run with the output off is of a board that is not fed', () => {
    expect(adoptReading(board, reading({}), 'idle')?.powered).toBe(false);
    expect(adoptReading(board, reading({}), null)?.powered).toBe(true);
    expect(adoptReading(board, reading({ quantity: 'ohms' }), 'powered')?.powered).toBe(false);
  });
});
