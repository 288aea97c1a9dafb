import { GLYPH_BOX, STAGE_GLYPHS } from '../../core/stages/glyphs.ts';
import type { StageId } from '../../core/stages/stage.ts';

/** The line that shows what the draw does in a stage. Always beside its word. */
export function StageGlyph({ stage, width = 30 }: { stage: StageId; width?: number }) {
  return (
    <svg
      className="stage-glyph"
      viewBox={`0 0 ${GLYPH_BOX.width} ${GLYPH_BOX.height}`}
      width={width}
      height={(width * GLYPH_BOX.height) / GLYPH_BOX.width}
      fill="none"
      stroke="currentColor"
      strokeWidth={1.75}
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      <path d={STAGE_GLYPHS[stage]} />
    </svg>
  );
}
