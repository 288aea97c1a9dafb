import type { StageId } from './stage.ts';

/** Size of the box that every stage glyph is drawn in, in its own units. */
export const GLYPH_BOX = { width: 24, height: 16 } as const;

/**
 * One line glyph a stage: SVG path data in a 24 x 16 box (y down), to be stroked with round
 * caps and joins and never filled. Each draws what the draw does, so that a stage is known by
 * its shape without its tint.
 */
export const STAGE_GLYPHS: Readonly<Record<StageId, string>> = {
  // An open contact: the line stops, a gap, the line goes on at the floor.
  off: 'M2 14H8M11 11L14 8M16 14H22',
  // Only the floor, dotted.
  'no-draw': 'M2 14H4M8 14H10M14 14H16M20 14H22',
  // A small rise, then flat and low.
  'flat-low': 'M2 14H6V11H22',
  // A staircase upward.
  stepping: 'M2 14H6V11H11V8H16V5H20V2H22',
  // A stair that goes flat at half height and is held there.
  stalled: 'M2 14H5V11H9V8H22M22 6V10',
  // A busy line, high.
  running: 'M2 14H4V5L7 3L9 6L12 2L14 6L17 3L19 6L22 4',
  // Flat and high, above a dashed mark of where it should be.
  'flat-high': 'M2 14H5V3H22M8 9H10M13 9H15M18 9H20',
  // One slow straight climb.
  creeping: 'M2 13L22 5',
  // A line pressed flat under a ceiling.
  limited: 'M2 2H22M2 14L6 5H22',
  // A saw.
  cycling: 'M2 14L7 4V14L13 4V14L19 4V14H22',
  // Up, along, and down again.
  'fell-back': 'M2 14H4V3H11L14 13H22',
};
