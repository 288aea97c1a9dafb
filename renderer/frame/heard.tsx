import { STAGE_WORDS } from '../../core/stages/stage.ts';
import { useDeskState } from '../state/use-desk.ts';

/** Tells screen readers of stage changes and of what was done; never of every sample. */
export function Heard() {
  const stage = useDeskState((state) => state.live?.report.stages.at(-1)?.stage ?? null);
  const said = useDeskState((state) => state.said);
  return (
    <>
      <p role="status" className="heard-only" data-testid="heard-stage">
        {stage === null ? '' : `Stage: ${STAGE_WORDS[stage]}`}
      </p>
      <p role="status" className="heard-only" data-testid="heard-said">
        {said}
      </p>
    </>
  );
}
