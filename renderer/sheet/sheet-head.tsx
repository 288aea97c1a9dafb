import type { ReactNode } from 'react';
import type { StageId } from '../../core/stages/stage.ts';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import type { SheetState } from './sheet-state.ts';

interface Props {
  readonly state: SheetState;
  readonly stage: StageId | null;
  readonly children?: ReactNode;
}

/** What the sheet is, and one sentence that says what to do next. */
export function SheetHead({ state, stage, children }: Props) {
  const shown = state.kind === 'limited' ? 'limited' : state.kind === 'live' ? stage : null;
  return (
    <header className="sheet-head">
      <p className="sheet-next" data-testid="next-sentence">
        <strong className={shown !== null ? `sheet-word tint-${shown}` : 'sheet-word'}>
          {shown !== null && <StageGlyph stage={shown} />}
          {state.word}
        </strong>
        <span>{state.sentence}</span>
      </p>
      {children}
    </header>
  );
}
