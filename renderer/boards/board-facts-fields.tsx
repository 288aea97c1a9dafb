import { Pick } from '../parts/pick.tsx';
import type { BoardDraft, BoardDraftFacts } from './board-draft.ts';

const FIELDS = [
  ['statedInputV', 'Stated input, V'],
  ['statedLimitA', 'Stated limit, A'],
  ['runningA', 'Running draw, A'],
] as const;

/** Name of the board and what is stated of the whole. */
export function BoardFactsFields({
  draft,
  onChange,
}: {
  draft: BoardDraft;
  onChange: (draft: BoardDraft) => void;
}) {
  const put = (part: Partial<BoardDraftFacts>): void =>
    onChange({ ...draft, facts: { ...draft.facts, ...part } });
  return (
    <div className="board-fields">
      <label className="field board-name">
        Board
        <input
          className="field-input"
          autoComplete="off"
          maxLength={200}
          value={draft.name}
          onChange={(event) => onChange({ ...draft, name: event.target.value })}
        />
      </label>
      {FIELDS.map(([key, label]) => (
        <label key={key} className="field">
          {label}
          <input
            className="field-input"
            inputMode="decimal"
            autoComplete="off"
            maxLength={20}
            value={draft.facts[key]}
            onChange={(event) => put({ [key]: event.target.value })}
          />
        </label>
      ))}
      <Pick
        className="field"
        label="Runs flat when healthy"
        value={draft.facts.runsFlat}
        onPick={(picked) => put({ runsFlat: picked === 'yes' || picked === 'no' ? picked : '' })}
      >
        <option value="">Not known</option>
        <option value="yes">Yes</option>
        <option value="no">No</option>
      </Pick>
    </div>
  );
}
