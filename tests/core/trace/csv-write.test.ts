import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CSV_HEADER, csvRows, jsonLines } from '../../../core/trace/csv-write.ts';
import { REGULATION_CODES, type TraceColumns } from '../../../core/trace/sample.ts';
import { readTraceText } from './read-trace-text.ts';

const columns: TraceColumns = {
  ticks: Float64Array.of(0, 500, 12_345),
  volts: Float64Array.of(12.003, Number.NaN, 0),
  amps: Float64Array.of(0.231, 1e-7, Number.NaN),
  regulation: Uint8Array.of(1, 0, 2),
};

describe('csvRows', () => {
  it('writes seconds, volts, amps and regulation, and nothing for what was not read', () => {
    expect(CSV_HEADER + csvRows(columns)).toBe(
      'time_s,volts_V,amps_A,regulation\n0.0000,12.003,0.231,cv\n0.0500,,1e-7,\n1.2345,0,,cc\n',
    );
  });

  it('loses nothing: what is read back is the same to the last bit', () => {
    const reading = fc.option(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { nil: Number.NaN });
    const row = fc.tuple(fc.integer({ min: 1, max: 1e9 }), reading, reading, fc.nat({ max: 4 }));
    fc.assert(
      fc.property(fc.array(row, { minLength: 2, maxLength: 40 }), (rows) => {
        let tick = 0;
        const ticks = rows.map(([wait], i) => {
          tick += i === 0 ? 0 : wait;
          return tick;
        });
        const text = csvRows({
          ticks: Float64Array.from(ticks),
          volts: Float64Array.from(rows, ([, volts]) => volts),
          amps: Float64Array.from(rows, ([, , amps]) => amps),
          regulation: Uint8Array.from(rows, ([, , , code]) => code),
        });
        const { read } = readTraceText(CSV_HEADER + text);
        expect(read.map((sample) => sample.tick)).toEqual(ticks);
        read.forEach(({ volts, amps, regulation }, i) => {
          const [, v, a, code] = rows[i]!;
          // The reader takes the -0 of an instrument at rest as 0.
          expect(volts ?? Number.NaN).toBe(v + 0);
          expect(amps ?? Number.NaN).toBe(a + 0);
          expect(regulation).toBe(REGULATION_CODES[code]);
        });
      }),
      { numRuns: 100 },
    );
  });
});

describe('jsonLines', () => {
  it('writes an object a sample that any JSON reader takes', () => {
    const lines = jsonLines(columns).trimEnd().split('\n');
    expect(lines.map((line) => JSON.parse(line))).toEqual([
      { timeS: 0, volts: 12.003, amps: 0.231, regulation: 'cv' },
      { timeS: 0.05, volts: null, amps: 1e-7, regulation: null },
      { timeS: 1.2345, volts: 0, amps: null, regulation: 'cc' },
    ]);
  });
});
