import { describe, expect, it } from 'vitest';
import { markLetter, pinMarks } from '../../../core/record/mark-pins.ts';
import type { Mark } from '../../../core/stages/stage.ts';

const frame = { left: 0, right: 100 };
const marks = (...times: number[]): Mark[] => times.map((atS) => ({ mark: 'note', atS, text: '' }));

describe('markLetter', () => {
  it('runs from a to z and on to aa', () => {
    expect([0, 25, 26, 51, 52].map(markLetter)).toEqual(['a', 'z', 'aa', 'az', 'ba']);
  });
});

describe('pinMarks', () => {
  it('keeps every stalk and drops only letters that would touch', () => {
    const pins = pinMarks(marks(10, 12, 40), (s) => s, frame);
    expect(pins.map((pin) => pin.at)).toEqual([10, 12, 40]);
    expect(pins.map((pin) => pin.lettered)).toEqual([true, false, true]);
  });

  it('pins a mark from outside the run to the edge', () => {
    expect(pinMarks(marks(-5, 130), (s) => s, frame).map((pin) => pin.at)).toEqual([0, 100]);
  });
});
