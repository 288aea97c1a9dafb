import { describe, expect, it } from 'vitest';
import { layStrip } from '../../../core/record/stage-strip.ts';
import { runAfter } from '../../support/record-job.ts';

const [stage] = runAfter().report.stages;
const cellOf = (width: number) =>
  layStrip([{ ...stage!, stage: 'flat-low', startS: 0, endS: width }], (s) => s)[0];

describe('layStrip', () => {
  it('shows as much as fits: word and glyph, then the glyph, then the number, then nothing', () => {
    expect([200, 60, 20, 5].map((width) => cellOf(width)?.shows)).toEqual([
      'words',
      'glyph',
      'number',
      'nothing',
    ]);
  });

  it('numbers stages from 1, as the table under the plot does', () => {
    const cells = layStrip(runAfter().report.stages, (s) => s);
    expect(cells.map((cell) => cell.number)).toEqual([1, 2, 3, 4, 5, 6]);
  });
});
