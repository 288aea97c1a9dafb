import { WakelineError } from '../errors.ts';

/** The largest file that is taken: a telephone's largest pictures stay below. */
export const MOST_BYTES = 40 * 1024 * 1024;
/** More than a 50-megapixel camera makes; a small file may claim far more, and be a trap. */
export const MOST_PIXELS = 64_000_000;
export const MOST_SIDE = 16_384;

/** A picture that is refused, and why. */
export function badPicture(where: string, what: string, todo: string): WakelineError {
  return new WakelineError({
    code: 'bad-picture',
    what,
    where,
    todo: `${todo} Nothing was kept of it.`,
  });
}

export const cutShort = (where: string): WakelineError =>
  badPicture(where, 'The picture is cut short or damaged', 'Copy it from the camera again.');

/** Throws `bad-picture` when a picture of this size in pixels may not be opened. */
export function checkPixels(where: string, width: number, height: number): void {
  if (width < 1 || height < 1) throw cutShort(where);
  if (width > MOST_SIDE || height > MOST_SIDE || width * height > MOST_PIXELS) {
    throw badPicture(
      where,
      `The picture is ${width} x ${height} pixels; at most ${MOST_PIXELS / 1e6} million and ${MOST_SIDE} a side are taken`,
      'Save it smaller and add it again.',
    );
  }
}
