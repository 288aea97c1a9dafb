import { describe, expect, it } from 'vitest';
import { pictureGroups } from '../../../core/record/picture-figures.ts';
import { shopClock } from '../../../core/record/record-time.ts';
import { inventedPictures, inventedWhole, picture } from '../../support/record-job.ts';

const groups = pictureGroups(inventedPictures, inventedWhole, shopClock(60));

describe('pictures for paper', () => {
  it('put the same before and after side by side, and the others by themselves', () => {
    expect(groups.map(({ isPair, figures }) => [isPair, figures.map(({ head }) => head)])).toEqual([
      [true, ['Before: thermal picture of main rail', 'After: thermal picture of main rail']],
      [false, ['Microscope picture']],
    ]);
  });

  it('pair them also when the one after was taken first, and print none twice', () => {
    const pair = pictureGroups(inventedPictures.toReversed(), inventedWhole, shopClock(60));
    expect(pair.flatMap(({ figures }) => figures)).toHaveLength(3);
    expect(pair.find(({ isPair }) => isPair)?.figures[0]?.head).toMatch(/^Before/);
  });

  it('write marks with their temperatures, numbered where they have no name', () => {
    const [before] = groups[0]!.figures;
    expect(before?.marks.map(({ tag }) => tag)).toEqual(['C214 87.5 °C', '2 24 °C']);
    expect(before?.marks.map(({ words }) => words)).toEqual([
      'C214, hot spot, 87.5 °C',
      'Mark 2, 24 °C',
    ]);
    expect(before?.alt).toContain('Marked: C214, hot spot, 87.5 °C; mark 2, 24 °C.');
  });

  it('shorten a tag that would cover what it names, and keep the whole name below', () => {
    const name = 'the third capacitor from the edge';
    const long = picture({
      marks: [{ id: 'a', kind: 'point', name, x: 0, y: 0, temperatureC: null }],
    });
    const [group] = pictureGroups([long], inventedWhole, shopClock(60));
    expect(group?.figures[0]?.marks[0]).toMatchObject({ tag: 'the third cap…', words: name });
  });

  it('say which part they show', () => {
    expect(groups[1]?.figures[0]?.tied).toBe('Part C214, lifted.');
  });
});
