import { expect, it } from 'vitest';
import { describePicture } from '../../../core/pictures/describe-picture.ts';
import type { PictureMark } from '../../../core/pictures/picture.ts';

const mark = (fields: Partial<PictureMark>): PictureMark => ({
  id: '1',
  kind: 'point',
  name: '',
  x: 0.5,
  y: 0.5,
  temperatureC: null,
  ...fields,
});

it('says in words what a picture shows and where it is hot', () => {
  const marks = [mark({ kind: 'hot-spot', name: 'C412', temperatureC: 87 }), mark({})];
  expect(
    describePicture({ kind: 'thermal', caption: 'Ten seconds at 0.5 V', rail: 'MAIN_8V6', marks }),
  ).toBe(
    'Thermal picture of MAIN_8V6: Ten seconds at 0.5 V. Marked: C412, hot spot, 87 °C; mark 2.',
  );
});

it('says no more than was told', () => {
  expect(describePicture({ kind: 'board', caption: ' ', rail: '', marks: [] })).toBe(
    'Board picture.',
  );
});
