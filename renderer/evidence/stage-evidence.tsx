import { useEffect, useRef, useState } from 'react';
import type { StageEvidence as Evidence } from '../../core/contract/match-calls.ts';
import { STAGE_WORDS, type Stage } from '../../core/stages/stage.ts';
import { formatPercent, formatQuantity } from '../../core/units/format.ts';
import { HeadedTable } from '../parts/headed-table.tsx';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { useActions } from '../state/use-desk.ts';
import { reasonWords } from '../strip/reason-words.ts';
import { GoodRuns } from './good-runs.tsx';
import { LevelFacts } from './level-facts.tsx';

interface Props {
  readonly runId: string;
  readonly stage: Stage;
  readonly onClose: () => void;
}

/** A stage opened into what its name rests on: levels, noise, thresholds and good runs. */
export function StageEvidence({ runId, stage, onClose }: Props) {
  const { ask } = useActions();
  const dialog = useRef<HTMLDialogElement | null>(null);
  const [evidence, setEvidence] = useState<Evidence | null>(null);
  const { startS, endS } = stage;
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: of the stage as it was when it was opened
  useEffect(() => {
    void ask('stageEvidence', { runId, startS: Math.max(0, startS), endS }).then(setEvidence);
  }, [runId, ask]);
  return (
    <dialog
      ref={dialog}
      className="stage-evidence"
      aria-label={`Why ${STAGE_WORDS[stage.stage]}`}
      onClose={onClose}
    >
      <h2>
        <StageGlyph stage={stage.stage} width={36} /> {STAGE_WORDS[stage.stage]}
      </h2>
      <p>{reasonWords(stage.reason)}</p>
      <p className="quiet">
        {formatPercent(stage.confidence)} sure of the name;{' '}
        {stage.final ? 'settled' : 'may still change'}.
      </p>
      {evidence === null ? (
        <p className="quiet">Looking at its readings…</p>
      ) : (
        <>
          <LevelFacts levels={evidence.levels} stage={stage} steps={evidence.steps} />
          <HeadedTable caption="Held against" heads={['What', 'Value', 'From']}>
            {evidence.thresholds.map((one) => (
              <tr key={one.name} data-decides={one.decides}>
                <th scope="row">
                  {one.name}
                  {one.decides ? ', decides here' : ''}
                </th>
                <td>{formatQuantity(one.value, one.unit, null, { digits: 3 })}</td>
                <td>
                  {evidence.isFromNotes && one.from === 'good runs'
                    ? "the board's own notes"
                    : one.from}
                </td>
              </tr>
            ))}
          </HeadedTable>
          <GoodRuns runs={evidence.goodRuns} />
        </>
      )}
      <button type="button" className="plain strong" onClick={() => dialog.current?.close()}>
        Close
      </button>
    </dialog>
  );
}
