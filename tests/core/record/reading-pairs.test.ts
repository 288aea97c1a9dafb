import { describe, expect, it } from 'vitest';
import { readingPairs } from '../../../core/record/reading-pairs.ts';
import { shopClock } from '../../../core/record/record-time.ts';
import { inventedWhole, reading, TAKEN_IN } from '../../support/record-job.ts';

const clock = shopClock(60);
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('readings before and after at the same points', () => {
  const { isChanged, rows } = readingPairs(inventedWhole, clock);
  const rowOf = (place: string, measured: string) =>
    rows.find((row) => row.place === place && row.measured === measured)!;
  const said = (lines: readonly { value: string; verdict: string }[]) =>
    lines.map(({ value, verdict }) => plain(`${value} ${verdict}`));

  it('stand side by side with the digits that the meter showed', () => {
    expect(isChanged).toBe(true);
    const ohms = rowOf('main rail', 'Resistance');
    expect(plain(ohms.expected)).toBe('at least 2 kΩ');
    expect([said(ohms.before), said(ohms.since)]).toEqual([
      ['1.31 Ω low'],
      ['4.713 kΩ as expected'],
    ]);
    const volts = rowOf('main rail', 'Volts');
    expect([said(volts.before), said(volts.since)]).toEqual([
      ['2.914 V low'],
      ['8.604 V as expected'],
    ]);
  });

  it('leave a side empty where nobody measured', () => {
    expect(rowOf('input fuse, far side', 'Diode reading').since).toEqual([]);
    expect(rowOf('3.3 V always on', 'Volts').before).toEqual([]);
  });

  it('lose no reading: every one of a place is there, newest first', () => {
    const at = (minutes: number, value: number) =>
      reading({ place: 'coil', value, takenAt: TAKEN_IN + minutes * 60_000 });
    const whole = {
      ...inventedWhole,
      items: [],
      readings: [at(1, 1), at(2, 2), at(300, 3), at(301, 4)],
    };
    const [row] = readingPairs(whole, clock).rows;
    expect(row?.before.map(({ value }) => plain(value))).toEqual(['2.000 V', '1.000 V']);
    expect(row?.since.map(({ value }) => plain(value))).toEqual(['4.000 V', '3.000 V']);
  });

  it('have one side only while no part was changed', () => {
    const pairs = readingPairs({ ...inventedWhole, parts: [] }, clock);
    expect(pairs.isChanged).toBe(false);
    expect(pairs.rows.every(({ since }) => since.length === 0)).toBe(true);
  });
});
