import { useState } from 'react';
import { useActions, useDeskState } from '../state/use-desk.ts';

const NOWHERE = '';

/** Says plainly that no real instrument is read, and gives the pretend bench its hands. */
export function PretendStrip() {
  const pretend = useDeskState((state) => state.bench?.pretend ?? null);
  const { ask } = useActions();
  const [part, setPart] = useState('');
  if (pretend === null) return null;
  const board = pretend.shelf.find((one) => one.key === pretend.board) ?? null;
  return (
    <section className="pretend-strip" aria-label="Pretend bench">
      <p>
        <strong>Pretend bench</strong> No real instrument is read.
      </p>
      <label>
        Board
        <select
          value={pretend.board ?? NOWHERE}
          onChange={(event) => void ask('hands', { do: 'put-board', board: event.target.value })}
        >
          {board === null && <option value={NOWHERE}>None</option>}
          {pretend.shelf.map((one) => (
            <option key={one.key} value={one.key}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      <label>
        Probe at
        <select
          value={pretend.probeAt ?? NOWHERE}
          onChange={(event) =>
            void ask('hands', { do: 'probe', point: event.target.value || null })
          }
        >
          <option value={NOWHERE}>Nothing</option>
          {board?.points.map((point) => (
            <option key={point} value={point}>
              {point}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        className="plain"
        onClick={() => void ask('hands', { do: 'press-wake' })}
      >
        Press its button
      </button>
      <label>
        Part
        <select value={part} onChange={(event) => setPart(event.target.value)}>
          <option value="">Choose</option>
          {board?.parts.map((one) => (
            <option key={one} value={one}>
              {one}
              {pretend.partsReplaced.includes(one) ? ' (replaced)' : ''}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        className="plain"
        disabled={part === ''}
        onClick={() => void ask('hands', { do: 'replace-part', part })}
      >
        Replace part
      </button>
      {board !== null && <p className="pretend-story quiet">{board.story}</p>}
    </section>
  );
}
