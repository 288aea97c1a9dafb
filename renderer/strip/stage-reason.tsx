import { STAGE_WORDS, type Stage } from '../../core/stages/stage.ts';
import { formatPercent } from '../../core/units/format.ts';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { reasonWords } from './reason-words.ts';

/** Why a stage has its name, in words and numbers. Stays in one place, so that nothing jumps. */
export function StageReason({ stage, isNewest }: { stage: Stage | null; isNewest: boolean }) {
  if (stage === null) {
    return <p className="stage-reason quiet">Stages appear here as the draw takes shape.</p>;
  }
  return (
    <p className="stage-reason" data-testid="stage-reason">
      <StageGlyph stage={stage.stage} width={36} />
      <strong>
        {isNewest ? '' : 'Earlier: '}
        {STAGE_WORDS[stage.stage]}
      </strong>
      <span>{reasonWords(stage.reason)}</span>
      <span className="quiet">
        {stage.final ? 'settled' : 'may still change'}, {formatPercent(stage.confidence)} sure
      </span>
    </p>
  );
}
