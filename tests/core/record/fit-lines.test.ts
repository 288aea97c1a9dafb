import { describe, expect, it } from 'vitest';
import { cutText, fitLines, rowsOf } from '../../../core/record/fit-lines.ts';

describe('lines cut to fit a page', () => {
  it('are left alone where there is room', () => {
    const sections = [{ title: 'a', lines: ['short', 'also short'] }];
    expect(fitLines(sections, 10)).toEqual({ sections, rows: 4, isCut: false });
  });

  it('are all cut to one length, behind a word, with a sign that they go on', () => {
    const long = 'seven words stand in this one sentence '.repeat(60);
    const { sections, rows, isCut } = fitLines([{ title: 'a', lines: [long, long] }], 16);
    expect(isCut).toBe(true);
    expect(rows).toBeLessThanOrEqual(16);
    expect(sections[0]?.lines).toHaveLength(2);
    expect(sections[0]?.lines[0]).toMatch(/(seven|words|stand|in|this|one|sentence) …$/);
  });

  it('cut a text of line breaks too, which would be longer than its letters', () => {
    const steps = Array.from({ length: 90 }, (_, i) => `${i}`).join('\n');
    expect(rowsOf(steps)).toBe(90);
    expect(rowsOf(cutText(steps, 380))).toBeLessThanOrEqual(5);
  });

  it('cut a word without end', () => {
    expect(cutText('x'.repeat(4000), 260)).toBe(`${'x'.repeat(260)} …`);
  });
});
