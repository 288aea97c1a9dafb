import { MARK_BOX, MARK_SHAPES } from '../../core/pictures/mark-shapes.ts';
import type { PictureMark } from '../../core/pictures/picture.ts';

/** The sign of a mark, ink on paper so that it shows on dark and on bright. */
export function MarkSign({ kind }: { readonly kind: PictureMark['kind'] }) {
  return (
    <svg
      className="mark-sign"
      viewBox={`0 0 ${MARK_BOX} ${MARK_BOX}`}
      width={MARK_BOX}
      height={MARK_BOX}
      aria-hidden="true"
    >
      <path className="mark-ground" d={MARK_SHAPES[kind]} />
      <path className="mark-ink" d={MARK_SHAPES[kind]} />
    </svg>
  );
}
