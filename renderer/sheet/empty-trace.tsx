import { STAGE_WORDS, type StageId } from '../../core/stages/stage.ts';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { useActions } from '../state/use-desk.ts';
import type { SheetKind } from './sheet-state.ts';

/** The way a board wakes, as a legend of shapes; no numbers, so that nobody reads it as data. */
const WAY: readonly StageId[] = ['off', 'no-draw', 'flat-low', 'stepping', 'running'];

/** Before anything was ever recorded: what will be here, and where to begin. */
export function EmptyTrace({ kind }: { kind: SheetKind }) {
  const { show } = useActions();
  return (
    <section className="empty-trace" aria-label="Trace of this run">
      <p className="empty-trace-words">The draw will be drawn here as the board wakes:</p>
      <ol className="empty-way">
        {WAY.map((stage) => (
          <li key={stage} className={`tint-${stage}`}>
            <StageGlyph stage={stage} width={120} />
            <span>{STAGE_WORDS[stage]}</span>
          </li>
        ))}
      </ol>
      {kind === 'empty' && (
        <p className="empty-trace-keys">
          <button type="button" className="plain strong" onClick={() => show('instruments')}>
            Connect instruments
          </button>
        </p>
      )}
    </section>
  );
}
