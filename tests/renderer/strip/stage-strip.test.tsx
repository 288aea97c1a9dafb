import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { STAGE_GLYPHS } from '../../../core/stages/glyphs.ts';
import {
  STAGE_IDS,
  STAGE_WORDS,
  type Stage,
  type StageReport,
} from '../../../core/stages/stage.ts';
import { StageStrip } from '../../../renderer/strip/stage-strip.tsx';

const stages: Stage[] = STAGE_IDS.map((stage, i) => ({
  stage,
  startS: i,
  endS: i + 1,
  meanA: 0.1,
  meanV: 5,
  confidence: 0.93,
  reason: `0.100 A +- 0.002 <b>for</b> ${i} s`,
  periodS: null,
  final: false,
}));
const html = renderToStaticMarkup(
  <StageStrip
    runId="run"
    range={{ fromTick: 0, toTick: STAGE_IDS.length * 10_000 }}
    report={{ stages } as unknown as StageReport}
    endTick={STAGE_IDS.length * 10_000}
  />,
);

describe('the stage strip', () => {
  it('gives every stage its glyph, its word and its tint together', () => {
    for (const stage of STAGE_IDS) {
      expect(html).toContain(STAGE_GLYPHS[stage]);
      expect(html).toContain(`>${STAGE_WORDS[stage]}<`);
      expect(html).toContain(`tint-${stage}`);
    }
  });

  it('has the reason in the name of each, as text', () => {
    expect(html).toContain('No draw, 1.0\u00a0s: 0.100 A ± 0.002 &lt;b&gt;for&lt;/b&gt; 1 s');
    expect(html).not.toContain('<b>');
  });

  it('can be tabbed to once, at its newest stage', () => {
    expect(html.match(/tabindex="0"/g)).toHaveLength(1);
    expect(html).toMatch(/data-stage="10"[^>]*tabindex="0"/);
  });
});
