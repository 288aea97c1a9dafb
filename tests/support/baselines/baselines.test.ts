import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeVarint, encodeVarint } from './varint-codec.ts';
import { bitsOf, decodeXor, encodeXor } from './xor-codec.ts';
import { decodeZstd, encodeZstd } from './zstd-packed.ts';

// A yardstick that is wrong measures nothing: each baseline of the bench is checked here.

describe('the XOR codec against Pelkonen et al., PVLDB 8(12) 2015', () => {
  it('writes the stream of figure 2: 167 bits', () => {
    // 02:00:00 taken as 1427162400; the bytes are our own encoding of the figure's fields.
    const start = 1427162400;
    const times = [start + 62, start + 122, start + 182];
    const stream = encodeXor(start, times, [12, 12, 24]);
    expect(stream.size).toBe(167);
    expect(stream.hex()).toBe('000000005510c52000f900a0000000000002fc6b06');
    expect(decodeXor(stream, 3)).toEqual({ times, values: [12, 12, 24] });
  });

  it('sees the XORs of figure 4', () => {
    const xors = (values: readonly number[]) =>
      values
        .slice(1)
        .map((value, i) => (bitsOf(value) ^ bitsOf(values[i]!)).toString(16).padStart(16, '0'));
    expect(xors([12, 24, 15, 12, 35])).toEqual([
      '0010000000000000',
      '0016000000000000',
      '0006000000000000',
      '0069800000000000',
    ]);
    expect(xors([15.5, 14.0625, 3.25, 8.625, 13.1])).toEqual([
      '0003200000000000',
      '0026200000000000',
      '002b400000000000',
      '000b733333333333',
    ]);
  });

  it('packs the two-hour series of dgryski/go-tsz testdata into 1604 bits', () => {
    const text =
      '761 727 765 706 700 679 757 708 739 707 699 740 729 766 730 715 705 693 765 724 ' +
      '799 761 737 766 756 719 722 801 747 731 742 744 791 750 759 809 751 705 770 792 ' +
      '727 762 772 721 748 753 744 716 776 659 789 766 758 690 795 770 758 723 767 765 ' +
      '693 706 681 727 724 780 678 696 758 740 735 700 742 747 752 734 743 732 746 770 ' +
      '780 710 731 712 712 741 770 770 754 718 670 775 749 795 756 741 787 721 745 782 ' +
      '765 780 811 790 836 743 858 739 762 770 752 763 795 792 746 786 785 774 786 718';
    const values = text.split(' ').map(Number);
    const times = values.map((_, i) => 1440583200 + 60 * i);
    expect(encodeXor(1440583200, times, values).size).toBe(1604);
  });

  it.each([
    // Series of the tests of dgryski/go-tsz, facebookarchive/beringei and
    // ghilesmeddour/gorilla-time-series-compression.
    [
      [62, 122, 182, 242, 302, 602, 1502, 4452],
      [12, 12, 24, 13, 24, 24, 24, 24],
    ],
    [
      [1, 2, 3, 4, 5],
      [6.00065e6, 6.000656e6, 6.000657e6, 6.000659e6, 6.000661e6],
    ],
    [
      [1, 2, 3],
      [-0.39263690585168304, 0.450762617155903, -0.284155454538896],
    ],
    [
      [10, 20, 40, 40, 40, 90, 500, 147483647],
      [1, 2, 3, 4, 5, 6, 7, 8],
    ],
  ])('gives back times %j exactly', (times, values) => {
    expect(decodeXor(encodeXor(0, times, values), times.length)).toEqual({ times, values });
  });
});

describe('the other baselines', () => {
  it('write variable-length numbers as the Protocol Buffers documentation shows (from memory)', () => {
    // 150 is 96 01; zigzag makes -1, 1, -2 into 1, 2, 3.
    expect([...encodeVarint([75])]).toEqual([0x96, 0x01]);
    expect([...encodeVarint([-1, 0, -2])]).toEqual([1, 2, 3]);
  });

  it('give back any whole numbers', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -(2 ** 29), max: 2 ** 29 })), (series) => {
        expect(decodeVarint(encodeVarint(series))).toEqual(series);
        expect(decodeZstd(encodeZstd(series))).toEqual(series);
      }),
      { numRuns: 50 },
    );
  });
});
