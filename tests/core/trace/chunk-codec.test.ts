import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { BitEncoder } from '../../../core/trace/bit-coder.ts';
import {
  CHUNK_VERSION,
  decodeChunk,
  encodeChunk,
  MAX_CHUNK_SAMPLES,
} from '../../../core/trace/chunk-codec.ts';
import { CountModel } from '../../../core/trace/integer-model.ts';
import type { TraceColumns } from '../../../core/trace/sample.ts';
import { seal } from '../../../core/trace/sealed-bytes.ts';

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

/** Columns with the given amps at evenly spaced ticks. */
function withAmps(amps: readonly number[], ticks?: readonly number[]): TraceColumns {
  return {
    ticks: Float64Array.from(ticks ?? amps.map((_, i) => i * 500)),
    volts: new Float64Array(amps.length).fill(Number.NaN),
    amps: Float64Array.from(amps),
    regulation: new Uint8Array(amps.length),
  };
}

describe('encodeChunk on series that other compressors publish', () => {
  // Value and time series of the tests of the open-source libraries
  // ghilesmeddour/gorilla-time-series-compression, dgryski/go-tsz and
  // facebookarchive/beringei: each says "round trip exact".
  it.each([
    ['64 meaningful bits', [-0.39263690585168304, 0.450762617155903, -0.284155454538896], null],
    ['near-equal floats', [6.00065e6, 6.000656e6, 6.000657e6, 6.000659e6, 6.000661e6], null],
    ['figure 4', [15.5, 14.0625, 3.25, 8.625, 13.1], null],
    ['irregular stamps', [1, 2, 3, 4, 5, 6], [5, 60000000, 60000007, 1234567890, 1234567891, 2e9]],
    ['repeated stamps', [1, 2, 3, 4, 5, 6, 7, 8], [10, 20, 40, 40, 40, 90, 500, 147483647]],
  ] as const)('gives back %s exactly', (_name, amps, ticks) => {
    const columns = withAmps(amps, ticks ?? undefined);
    expect(decodeChunk(encodeChunk(columns))).toEqual(columns);
  });

  it('packs the 120 readings of the go-tsz two-hour series in less than the XOR way needs', () => {
    // dgryski/go-tsz testdata; 1604 bits by the scheme of Pelkonen et al., PVLDB 8(12) 2015.
    const minutes =
      '761 727 765 706 700 679 757 708 739 707 699 740 729 766 730 715 705 693 765 724 ' +
      '799 761 737 766 756 719 722 801 747 731 742 744 791 750 759 809 751 705 770 792 ' +
      '727 762 772 721 748 753 744 716 776 659 789 766 758 690 795 770 758 723 767 765 ' +
      '693 706 681 727 724 780 678 696 758 740 735 700 742 747 752 734 743 732 746 770 ' +
      '780 710 731 712 712 741 770 770 754 718 670 775 749 795 756 741 787 721 745 782 ' +
      '765 780 811 790 836 743 858 739 762 770 752 763 795 792 746 786 785 774 786 718';
    const values = minutes.split(' ').map(Number);
    const stamps = values.map((_, i) => 1440583200 + 60 * i);
    const bytes = encodeChunk(withAmps(values, stamps));
    expect(decodeChunk(bytes).amps).toEqual(Float64Array.from(values));
    expect(bytes.length * 8).toBeLessThan(1604);
  });
});

/** Normally distributed numbers from a small generator of their own (xorshift, Box-Muller). */
function noiseSource(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform() + 1e-12)) * Math.cos(2 * Math.PI * uniform());
}

/** Bits a value of the zero-order entropy of a series. */
function entropy(series: readonly number[]): number {
  const seen = new Map<number, number>();
  for (const value of series) seen.set(value, (seen.get(value) ?? 0) + 1);
  let bits = 0;
  for (const count of seen.values()) bits -= count * Math.log2(count / series.length);
  return bits / series.length;
}

/** Entropy of the best of the plain residuals: the value, its difference, the difference of that. */
function simpleEntropy(series: readonly number[]): number {
  const differences = (of: readonly number[]) => of.slice(1).map((value, i) => value - of[i]!);
  const first = differences(series);
  return Math.min(entropy(series), entropy(first), entropy(differences(first)));
}

describe('the size of a chunk', () => {
  const samples = 8192;
  const draws = {
    'a resting draw with noise of one count': (noise: () => number) =>
      Array.from({ length: samples }, () => Math.round(19 + noise())),
    'a resting draw with noise of two counts': (noise: () => number) =>
      Array.from({ length: samples }, () => Math.round(231 + 2 * noise())),
    'a busy draw': (noise: () => number) => {
      let level = 300;
      return Array.from({ length: samples }, () => {
        if (noise() > 1.3) level = 300 + Math.abs(noise()) * 150;
        return Math.round(level + 2 * noise());
      });
    },
  };

  it.each(Object.entries(draws))('stays near the entropy of %s', (_name, draw) => {
    const noise = noiseSource(20_310_401);
    const milliamps = draw(noise);
    const millivolts = milliamps.map(() => Math.round(12_000 + noise()));
    const ticks = milliamps.map((_, i) => i * 500 + Math.round(5 * noise()));
    const bytes = encodeChunk({
      ticks: Float64Array.from(ticks),
      volts: Float64Array.from(millivolts, (v) => v / 1000),
      amps: Float64Array.from(milliamps, (a) => a / 1000),
      regulation: new Uint8Array(samples).fill(1),
    });
    const bits = simpleEntropy(ticks) + simpleEntropy(millivolts) + simpleEntropy(milliamps);
    expect(bytes.length / ((bits * samples) / 8)).toBeLessThan(1.1);
    expect(bytes.length / (2 * samples)).toBeLessThan(0.9);
  });

  it('is small for half a second at 20 Hz, which is written over and over', () => {
    const noise = noiseSource(7);
    const readings = Array.from({ length: 10 }, () => Math.round(231 + noise()) / 1000);
    const columns = { ...withAmps(readings), volts: Float64Array.from(readings, () => 12.003) };
    expect(encodeChunk(columns).length).toBeLessThan(48);
  });
});

describe('decodeChunk on hostile bytes', () => {
  it('refuses or reads, but never hangs, when the checksum is made to fit', () => {
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 0, maxLength: 60 }), (body) => {
        const bytes = seal(0x57, CHUNK_VERSION, body);
        let back: TraceColumns | null = null;
        try {
          back = decodeChunk(bytes);
        } catch (thrown) {
          expect(thrown).toBeInstanceOf(WakelineError);
          expect((thrown as WakelineError).trouble.code).toBe('bad-chunk');
        }
        expect(back?.ticks.length ?? 0).toBeLessThanOrEqual(MAX_CHUNK_SAMPLES);
      }),
      { numRuns: 300 },
    );
  });

  it('refuses a length beyond what a chunk may hold before it makes room for it', () => {
    const coder = new BitEncoder();
    new CountModel().code(coder, 2 ** 50);
    const bytes = seal(0x57, CHUNK_VERSION, coder.finish());
    expect(thrownBy(() => decodeChunk(bytes)).trouble.what).toContain('claims');
  });

  it('refuses a chunk of a later version and says so', () => {
    const bytes = seal(0x57, CHUNK_VERSION + 1, new Uint8Array(8));
    expect(thrownBy(() => decodeChunk(bytes)).trouble.what).toContain('format is 2');
  });
});
