import { describe, expect, it } from 'vitest';
import { GLYPH_BOX, STAGE_GLYPHS } from '../../../core/stages/glyphs.ts';
import { STAGE_IDS } from '../../../core/stages/stage.ts';

/** The points that a path of M, L, H, V (absolute) and m, l, h, v (relative) runs through. */
function pointsOf(path: string): { x: number; y: number }[] {
  const points: { x: number; y: number }[] = [];
  let at = { x: 0, y: 0 };
  for (const [, command = '', text = ''] of path.matchAll(/([MLHV])([^A-Za-z]*)/g)) {
    const numbers = (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
    if (command === 'H') at = { ...at, x: numbers[0]! };
    else if (command === 'V') at = { ...at, y: numbers[0]! };
    else {
      for (let i = 0; i < numbers.length; i += 2) {
        at = { x: numbers[i]!, y: numbers[i + 1]! };
        points.push(at);
      }
      continue;
    }
    points.push(at);
  }
  return points;
}

describe('stage glyphs', () => {
  it('draws every stage, each in a shape of its own', () => {
    expect(Object.keys(STAGE_GLYPHS).sort()).toEqual([...STAGE_IDS].sort());
    expect(new Set(Object.values(STAGE_GLYPHS)).size).toBe(STAGE_IDS.length);
  });

  it('uses only straight absolute strokes, and stays inside its box with room for the line', () => {
    for (const path of Object.values(STAGE_GLYPHS)) {
      expect(path).toMatch(/^[MLHV\d .]+$/);
      for (const { x, y } of pointsOf(path)) {
        expect(x).toBeGreaterThanOrEqual(1);
        expect(x).toBeLessThanOrEqual(GLYPH_BOX.width - 1);
        expect(y).toBeGreaterThanOrEqual(1);
        expect(y).toBeLessThanOrEqual(GLYPH_BOX.height - 1);
      }
    }
  });

  it('draws what the draw does: stepping only climbs, fell-back ends low, flat-high ends high', () => {
    const heights = (id: keyof typeof STAGE_GLYPHS) => pointsOf(STAGE_GLYPHS[id]).map((p) => -p.y);
    const climb = heights('stepping');
    expect(climb).toEqual([...climb].sort((a, b) => a - b));
    expect(heights('fell-back').at(-1)).toBeLessThan(Math.max(...heights('fell-back')));
    expect(heights('flat-low').at(-1)).toBeLessThan(Math.max(...heights('stalled')));
  });
});
