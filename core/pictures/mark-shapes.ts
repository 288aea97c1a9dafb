import type { PictureMark } from './picture.ts';

/** The box that a mark's sign is drawn in, square; its middle is the place. */
export const MARK_BOX = 30;

/** A ring with four ticks for a hot spot, a cross with a hole for a point: seen on any ground. */
export const MARK_SHAPES: Readonly<Record<PictureMark['kind'], string>> = {
  'hot-spot': 'M15 8a7 7 0 1 1 0 14a7 7 0 1 1 0-14M15 1v6M15 23v6M1 15h6M23 15h6',
  point: 'M15 3v9M15 18v9M3 15h9M18 15h9',
};
