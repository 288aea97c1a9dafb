import { describe, expect, it } from 'vitest';
import { readModelParts, writeModelParts } from '../../../core/donors/read-model-parts.ts';
import { WakelineError } from '../../../core/errors.ts';

const whereOf = (table: string): string | undefined => {
  try {
    readModelParts(table, 'unknown');
    return undefined;
  } catch (thrown) {
    return thrown instanceof WakelineError ? thrown.trouble.where : String(thrown);
  }
};

describe('the list of what a board model carries', () => {
  it('reads a part a line with its rail, and writes the same list back', () => {
    const table = 'C12 10uF 25V X5R 1206 on MAIN\nU3';
    const parts = readModelParts(`${table}\n\n`, 'schematic');
    expect(parts).toEqual([
      { designator: 'C12', text: '10uF 25V X5R 1206', rail: 'MAIN', knownFrom: 'schematic' },
      { designator: 'U3', text: '', rail: '', knownFrom: 'schematic' },
    ]);
    expect(writeModelParts(parts)).toBe(table);
  });

  it('names the line and the character of what it cannot read', () => {
    expect(whereOf('C1 100nF\nC2 10u 25Q')).toMatch(/^line 2, character 10: /);
    expect(whereOf('C1 100nF\nc1 10uF')).toMatch(/^line 2, /);
    expect(whereOf('ten microfarads')).toMatch(/^line 1, character 1: /);
  });
});
