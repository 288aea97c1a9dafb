import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type QuickPart, readPartLine } from '../../../core/parts/read-part-line.ts';

// What is typed with one hand over a hot board: common practice, no source.
const LINES: readonly (readonly [string, readonly Partial<QuickPart>[]])[] = [
  ['C1207', [{ action: 'lifted', designator: 'C1207', isTest: false }]],
  ['c1207 lifted', [{ action: 'lifted', designator: 'C1207' }]],
  ['lifted C1207, shorted', [{ designator: 'C1207', stateFound: 'shorted', value: '' }]],
  ['C1207 off for a test', [{ action: 'lifted', isTest: true, stateFound: '' }]],
  [
    'C12 C13 C14 out',
    [{ designator: 'C12' }, { designator: 'C13' }, { designator: 'C14', action: 'lifted' }],
  ],
  [
    'C12 fitted 10u 25V X5R from donor shelf 3',
    [{ action: 'fitted', value: '10u 25V X5R', from: 'donor shelf 3' }],
  ],
  ['C12 lifted on MAIN cracked', [{ rail: 'MAIN', stateFound: 'cracked' }]],
  ['R7 4k7 1%', [{ action: 'lifted', value: '4k7 1%' }]],
  ['L3 back', [{ action: 'fitted', isBack: true }]],
  ['C1207 put back', [{ action: 'fitted', isBack: true, designator: 'C1207' }]],
  ['U5 replaced', [{ action: 'fitted', designator: 'U5' }]],
  ['lifted the cap beside the coil', [{ action: 'lifted', designator: 'the cap beside the coil' }]],
  ['Q3 lifted gate leaks to source', [{ designator: 'Q3', value: '' }]],
  ['', []],
  ['   ', []],
];

describe('readPartLine', () => {
  it.each(LINES)('reads "%s"', (line, parts) => {
    const read = readPartLine(line);
    expect(read).toHaveLength(parts.length);
    expect(read).toMatchObject(parts);
  });

  it('loses no word that says what was found', () => {
    expect(readPartLine('C12 lifted smells of fish')[0]?.stateFound).toBe('smells of fish');
  });

  it('reads any line without throwing, and names each part', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (line) => {
        for (const part of readPartLine(line)) {
          expect(part.designator).not.toBe('');
          expect(part.stateFound.length).toBeLessThanOrEqual(200);
        }
      }),
      { numRuns: 2000, seed: 3 },
    );
  });
});
