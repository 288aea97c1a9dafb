import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react';
import type { BoardModel } from '../../core/rails/board-model.ts';
import type { JobWalk } from '../../core/rails/job-walk.ts';
import type { RailPlace } from '../../core/rails/lay-out-rails.ts';
import { stepAlong } from './rail-steps.ts';
import { drawTree, NODE_HEIGHT, NODE_WIDTH } from './rail-tree-drawing.ts';
import { RailTreeLines } from './rail-tree-lines.tsx';
import { RailTreeNode } from './rail-tree-node.tsx';
import { TreeZoom, ZOOMS, type Zoom } from './tree-zoom.tsx';

interface Props {
  readonly board: BoardModel;
  readonly places: readonly RailPlace[];
  /** Verdicts to hang on the rails; none while a table is being typed. */
  readonly lines?: JobWalk['rails'] | undefined;
  /** The rail that is being measured. */
  readonly picked?: string | null;
  readonly onPick: (rail: string) => void;
}

/** From here on words are too small to read, and verdicts are shown by their shapes alone. */
const FAR = 0.3;

/**
 * The tree from input to loads. Lines are feeds, with a sign of what lies between; dashes enable. It
 * is one stop of the keyboard: arrows move along feeds, Enter picks, + and − zoom.
 */
export function RailTree({ board, places, lines, picked = null, onPick }: Props) {
  const drawing = useMemo(() => drawTree(board, places), [board, places]);
  const { width, height } = drawing;
  const [zoom, setZoom] = useState<Zoom>(1);
  const [reached, setReached] = useState<string | null>(null);
  const frame = useRef<HTMLDivElement | null>(null);
  const spots = useMemo(() => new Map(drawing.rails.map((one) => [one.name, one])), [drawing]);
  const railOf = useMemo(() => new Map(board.rails.map((one) => [one.name, one])), [board]);
  const lineOf = useMemo(() => new Map(lines?.map((one) => [one.rail.name, one])), [lines]);
  const input = board.rails[0]?.name;
  const stop =
    [reached, picked, board.rails[0]?.name].find((name) => name != null && spots.has(name)) ?? null;

  useEffect(() => {
    // With nothing picked the tree opens at its input.
    const spot = spots.get(picked ?? input ?? '');
    const seen = frame.current;
    if (spot === undefined || seen === null) return;
    // Only within the frame: the page stays where the reader left it.
    const [x, y] = [spot.x * zoom, spot.y * zoom];
    const isSeenAcross =
      x >= seen.scrollLeft && x + NODE_WIDTH * zoom <= seen.scrollLeft + seen.clientWidth;
    const isSeenDown =
      y >= seen.scrollTop && y + NODE_HEIGHT * zoom <= seen.scrollTop + seen.clientHeight;
    if (!isSeenAcross) seen.scrollLeft = x - (seen.clientWidth - NODE_WIDTH * zoom) / 2;
    if (!isSeenDown) seen.scrollTop = y - (seen.clientHeight - NODE_HEIGHT * zoom) / 2;
  }, [picked, input, spots, zoom]);

  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const at = ZOOMS.indexOf(zoom);
    const next = event.key === '+' || event.key === '=' ? at - 1 : event.key === '-' ? at + 1 : -1;
    const zoomed = ZOOMS[next];
    const to = stop === null ? null : stepAlong(board, places, stop, event.key);
    if (zoomed !== undefined) setZoom(zoomed);
    else if (to !== null) {
      setReached(to);
      frame.current?.querySelector<HTMLElement>(`[data-rail="${CSS.escape(to)}"]`)?.focus();
    } else if (!event.key.startsWith('Arrow')) return;
    // The keys of the view behind are not meant.
    event.preventDefault();
    event.stopPropagation();
  };

  return (
    <figure className="rail-tree" aria-label={`Rails of ${board.name}`}>
      <TreeZoom
        zoom={zoom}
        onZoom={setZoom}
        onWhole={() => {
          const seen = frame.current;
          if (seen === null) return;
          const fits = ZOOMS.find(
            (one) => width * one <= seen.clientWidth && height * one <= seen.clientHeight,
          );
          setZoom(fits ?? ZOOMS[ZOOMS.length - 1] ?? 1);
        }}
      />
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys are those of the rails in it */}
      <div ref={frame} className="rail-tree-frame" onKeyDown={onKeyDown}>
        <div style={{ width: width * zoom, height: height * zoom }}>
          <div
            className="rail-tree-paper"
            data-far={zoom <= FAR}
            style={{ width, height, transform: `scale(${zoom})` }}
          >
            <RailTreeLines drawing={drawing} picked={picked} />
            {drawing.rails.map(({ name, x, y }) => {
              const rail = railOf.get(name);
              return (
                rail !== undefined && (
                  <RailTreeNode
                    key={name}
                    rail={rail}
                    line={lineOf.get(name)}
                    x={x}
                    y={y}
                    isPicked={name === picked}
                    isStop={name === stop}
                    onReach={setReached}
                    onPick={onPick}
                  />
                )
              );
            })}
          </div>
        </div>
      </div>
    </figure>
  );
}
