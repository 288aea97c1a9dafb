import type { ReactNode } from 'react';
import type { Stage } from '../../core/stages/stage.ts';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import type { SheetState } from './sheet-state.ts';

interface Props {
  readonly state: SheetState;
  readonly stage: Stage | null;
  readonly children?: ReactNode;
}

/** What the sheet is, and one sentence that says what to do next. */
export function SheetHead({ state, stage, children }: Props) {
  const hasGlyph = (state.kind === 'live' || state.kind === 'limited') && stage !== null;
  return (
    <header className="sheet-head">
      <p className="sheet-next" data-testid="next-sentence">
        <strong className={hasGlyph ? `sheet-word tint-${stage.stage}` : 'sheet-word'}>
          {hasGlyph && <StageGlyph stage={state.kind === 'limited' ? 'limited' : stage.stage} />}
          {state.word}
        </strong>
        <span>{state.sentence}</span>
      </p>
      {children}
    </header>
  );
}
