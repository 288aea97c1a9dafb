import { GLYPH_BOX, STAGE_GLYPHS } from '../../core/stages/glyphs.ts';
import type { StageId } from '../../core/stages/stage.ts';

/** A stage's glyph in running text. The word is always beside it, so it is hidden from readers. */
export function StageGlyph({ stage }: { readonly stage: StageId }) {
  const { width, height } = GLYPH_BOX;
  return (
    <svg className="glyph" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <path d={STAGE_GLYPHS[stage]} />
    </svg>
  );
}
