import type { Picture, PictureSize } from '../../core/pictures/picture.ts';

/** Where main serves a picture from. Its hash is there so that a file put right is read anew. */
export function pictureUrl(picture: Pick<Picture, 'id' | 'hash'>, size: PictureSize): string {
  return `/pictures/${picture.id}/${size}?${picture.hash.slice(0, 8)}`;
}
