import { useState } from 'react';
import { LEADS_TOGETHER } from '../../core/bench-model/leads-together.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

const NOWHERE = '';

/** Says plainly that no real instrument is read, and gives the pretend bench its hands. */
export function PretendStrip() {
  const pretend = useDeskState((state) => state.bench?.pretend ?? null);
  const { ask } = useActions();
  const [part, setPart] = useState(NOWHERE);
  if (pretend === null) return null;
  const board = pretend.shelf.find((one) => one.key === pretend.board) ?? null;
  return (
    <section className="pretend-strip" aria-label="Pretend bench">
      <p>
        <strong>Pretend bench:</strong> no real instrument is read
      </p>
      <Pick
        label="Board"
        value={pretend.board ?? NOWHERE}
        onPick={(key) => void ask('hands', { do: 'put-board', board: key })}
      >
        {board === null && <option value={NOWHERE}>None</option>}
        {pretend.shelf.map((one) => (
          <option key={one.key} value={one.key}>
            {one.name}
          </option>
        ))}
      </Pick>
      <Pick
        label="Probe at"
        value={pretend.probeAt ?? NOWHERE}
        onPick={(point) => void ask('hands', { do: 'probe', point: point || null })}
      >
        <option value={NOWHERE}>Nothing</option>
        {board?.points.map((point) => (
          <option key={point} value={point}>
            {point}
          </option>
        ))}
      </Pick>
      <Pick
        label="Leads at"
        value={pretend.clippedAt ?? NOWHERE}
        onPick={(point) => void ask('hands', { do: 'clip', point: point || null })}
      >
        <option value={NOWHERE}>Its input</option>
        <option value={LEADS_TOGETHER}>Each other</option>
        {board?.points
          .filter((point) => point !== 'GND')
          .map((point) => (
            <option key={point} value={point}>
              {point}
            </option>
          ))}
      </Pick>
      <button
        type="button"
        className="plain"
        onClick={() => void ask('hands', { do: 'press-wake' })}
      >
        Press its button
      </button>
      <Pick label="Part" value={part} onPick={setPart}>
        <option value={NOWHERE}>Choose</option>
        {board?.parts.map((one) => (
          <option key={one} value={one}>
            {one}
            {pretend.partsReplaced.includes(one) ? ' (replaced)' : ''}
          </option>
        ))}
      </Pick>
      <button
        type="button"
        className="plain"
        disabled={part === NOWHERE}
        onClick={() => void ask('hands', { do: 'replace-part', part })}
      >
        Replace part
      </button>
      {board !== null && <p className="pretend-story quiet">{board.story}</p>}
    </section>
  );
}
