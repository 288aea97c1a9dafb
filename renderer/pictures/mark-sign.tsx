import type { PictureMark } from '../../core/pictures/picture.ts';

/** A ring with four ticks for a hot spot, a cross with a hole for a point: seen on any ground. */
const SHAPES: Readonly<Record<PictureMark['kind'], string>> = {
  'hot-spot': 'M15 8a7 7 0 1 1 0 14a7 7 0 1 1 0-14M15 1v6M15 23v6M1 15h6M23 15h6',
  point: 'M15 3v9M15 18v9M3 15h9M18 15h9',
};

/** The sign of a mark, ink on paper so that it shows on dark and on bright. */
export function MarkSign({ kind }: { readonly kind: PictureMark['kind'] }) {
  return (
    <svg className="mark-sign" viewBox="0 0 30 30" width={30} height={30} aria-hidden="true">
      <path className="mark-ground" d={SHAPES[kind]} />
      <path className="mark-ink" d={SHAPES[kind]} />
    </svg>
  );
}
