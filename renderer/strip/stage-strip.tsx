import { type KeyboardEvent, useRef, useState } from 'react';
import { STAGE_WORDS, type Stage, type StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { StageEvidence } from '../evidence/stage-evidence.tsx';
import { StageGlyph } from '../parts/stage-glyph.tsx';
import { PLOT } from '../trace/grid-lines.ts';
import type { TickRange } from '../trace/trace-view.ts';
import { placeStages } from './place-stages.ts';
import { reasonWords } from './reason-words.ts';
import { StageReason } from './stage-reason.tsx';

interface Props {
  readonly runId: string;
  readonly range: TickRange;
  readonly report: StageReport | null;
  readonly endTick: number;
}

/** The stages on the trace's own time axis: glyph, word and tint; the reason below on hover and focus. */
export function StageStrip({ runId, range, report, endTick }: Props) {
  const [pointed, setPointed] = useState<number | null>(null);
  const [rover, setRover] = useState<number | null>(null);
  const [opened, setOpened] = useState<Stage | null>(null);
  const list = useRef<HTMLOListElement | null>(null);
  const stages = report?.stages ?? [];
  const last = stages.length - 1;
  // Of a run that has ended, what it did last says more than that it is off.
  const newest = stages[last]?.final ? stages.findLastIndex((one) => one.stage !== 'off') : last;
  const placed = placeStages(stages, range, endTick / TICKS_PER_SECOND);
  const reachable = placed.find((p) => p.index === rover)?.index ?? placed.at(-1)?.index ?? -1;
  const shown = stages[pointed ?? newest] ?? stages[last] ?? null;

  const move = (event: KeyboardEvent): void => {
    const by = event.key === 'ArrowLeft' ? -1 : event.key === 'ArrowRight' ? 1 : 0;
    if (by === 0) return;
    event.preventDefault();
    const here = placed.findIndex((p) => p.index === reachable);
    const next = placed[here + by]?.index;
    if (next === undefined) return;
    setRover(next);
    list.current?.querySelector<HTMLButtonElement>(`[data-stage="${next}"]`)?.focus();
  };

  return (
    <div className="stage-strip">
      <ol
        ref={list}
        className="stage-row"
        aria-label="Stages of this run"
        style={{ marginLeft: PLOT.left, marginRight: PLOT.right }}
      >
        {placed.map(({ index, left, width }) => {
          const stage = stages[index]!;
          return (
            <li key={index} style={{ left: `${left}%`, width: `${width}%` }}>
              <button
                type="button"
                className={`stage tint-${stage.stage}`}
                data-stage={index}
                data-final={stage.final}
                tabIndex={index === reachable ? 0 : -1}
                onPointerEnter={() => setPointed(index)}
                onPointerLeave={() => setPointed(null)}
                onFocus={() => {
                  setPointed(index);
                  setRover(index);
                }}
                onBlur={() => setPointed(null)}
                onKeyDown={move}
                aria-haspopup="dialog"
                onClick={() => setOpened(stage)}
              >
                <StageGlyph stage={stage.stage} />
                <span className="heard-only">{stageName(stage)}</span>
                <span className="stage-word" aria-hidden="true">
                  {STAGE_WORDS[stage.stage]}
                </span>
                <span className="stage-time" aria-hidden="true">
                  {formatDuration(stage.endS - stage.startS)}
                </span>
              </button>
            </li>
          );
        })}
      </ol>
      <StageReason stage={shown} isNewest={pointed === null || pointed === newest} />
      {opened !== null && (
        <StageEvidence runId={runId} stage={opened} onClose={() => setOpened(null)} />
      )}
    </div>
  );
}

function stageName(stage: Stage): string {
  const length = formatDuration(stage.endS - stage.startS);
  return `${STAGE_WORDS[stage.stage]}, ${length}: ${reasonWords(stage.reason)}`;
}
