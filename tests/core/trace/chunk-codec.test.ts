import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { decodeChunk, encodeChunk, MAX_CHUNK_SAMPLES } from '../../../core/trace/chunk-codec.ts';
import type { TraceColumns } from '../../../core/trace/sample.ts';

const decimal = fc.oneof(
  fc
    .tuple(fc.integer({ min: -2_000_000, max: 2_000_000 }), fc.integer({ min: 0, max: 7 }))
    .map(([whole, digits]) => whole / 10 ** digits),
  fc.constant(Number.NaN),
);
const sampleOf = (reading: fc.Arbitrary<number>) =>
  fc.record({
    wait: fc.oneof(fc.integer({ min: 0, max: 700 }), fc.integer({ min: 0, max: 2 ** 40 })),
    volts: reading,
    amps: reading,
    regulation: fc.integer({ min: 0, max: 255 }),
  });

type Row = { wait: number; volts: number; amps: number; regulation: number };

function columnsOf(rows: readonly Row[]): TraceColumns {
  let tick = 0;
  return {
    ticks: Float64Array.from(rows, (row) => {
      tick += row.wait;
      return tick;
    }),
    volts: Float64Array.from(rows, (row) => row.volts),
    amps: Float64Array.from(rows, (row) => row.amps),
    regulation: Uint8Array.from(rows, (row) => row.regulation),
  };
}

function thrownBy(act: () => unknown): WakelineError {
  try {
    act();
  } catch (thrown) {
    if (thrown instanceof WakelineError) return thrown;
    throw thrown;
  }
  throw new WakelineError({ code: 'internal', what: 'nothing thrown', where: '', todo: '' });
}

describe('encodeChunk and decodeChunk', () => {
  it('give back any decimal readings, missing readings and irregular ticks exactly', () => {
    fc.assert(
      fc.property(fc.array(sampleOf(decimal), { maxLength: 300 }), (rows) => {
        const columns = columnsOf(rows);
        expect(decodeChunk(encodeChunk(columns))).toEqual(columns);
      }),
      { numRuns: 200 },
    );
  });

  it('give back any doubles whatever, minus zero and infinities among them', () => {
    fc.assert(
      fc.property(fc.array(sampleOf(fc.double()), { maxLength: 100 }), (rows) => {
        const columns = columnsOf(rows);
        const back = decodeChunk(encodeChunk(columns));
        expect([...back.volts].every((v, i) => Object.is(v, columns.volts[i]))).toBe(true);
        expect([...back.amps].every((a, i) => Object.is(a, columns.amps[i]))).toBe(true);
        expect(back.ticks).toEqual(columns.ticks);
      }),
      { numRuns: 200 },
    );
  });

  it('refuse columns of unlike length, and more samples than a chunk may hold', () => {
    const columns = columnsOf([{ wait: 0, volts: 1, amps: 1, regulation: 0 }]);
    const short = { ...columns, amps: new Float64Array(0) };
    expect(thrownBy(() => encodeChunk(short)).trouble.code).toBe('bad-input');
    const n = MAX_CHUNK_SAMPLES + 1;
    const long = {
      ticks: new Float64Array(n),
      volts: new Float64Array(n),
      amps: new Float64Array(n),
      regulation: new Uint8Array(n),
    };
    expect(thrownBy(() => encodeChunk(long)).trouble.code).toBe('bad-input');
  });

  it('say that a chunk is damaged for every cut and every flipped bit', () => {
    const rows = Array.from({ length: 40 }, (_, i) => ({
      wait: 500 + (i % 7),
      volts: 12 + (i % 3) / 1000,
      amps: 0.019,
      regulation: 1,
    }));
    const bytes = encodeChunk(columnsOf(rows));
    for (let cut = 0; cut < bytes.length; cut += 1) {
      expect(thrownBy(() => decodeChunk(bytes.subarray(0, cut))).trouble.code).toBe('bad-chunk');
    }
    for (let bit = 0; bit < bytes.length * 8; bit += 1) {
      const flipped = bytes.slice();
      flipped[bit >>> 3]! ^= 1 << (bit & 7);
      expect(thrownBy(() => decodeChunk(flipped)).trouble.code).toBe('bad-chunk');
    }
  });
});
