import { useEffect, useMemo, useRef } from 'react';
import type { BoardModel } from '../../core/rails/board-model.ts';
import type { JobWalk } from '../../core/rails/job-walk.ts';
import type { RailPlace } from '../../core/rails/lay-out-rails.ts';
import { formatQuantity } from '../../core/units/format.ts';
import {
  drawTree,
  NODE_HEIGHT,
  NODE_WIDTH,
  STROKE_AT,
  THROUGH_SIGNS,
} from './rail-tree-drawing.ts';
import { VerdictSign } from './verdict-sign.tsx';

interface Props {
  readonly board: BoardModel;
  readonly places: readonly RailPlace[];
  /** Verdicts to hang on the rails; none while a table is being typed. */
  readonly lines?: JobWalk['rails'] | undefined;
  /** The rail that is being measured. */
  readonly picked?: string | null;
  readonly onPick?: ((rail: string) => void) | undefined;
}

/** The tree from input to loads. Lines are feeds, with a sign of what lies between; dashes enable. */
export function RailTree({ board, places, lines, picked = null, onPick }: Props) {
  const drawing = useMemo(() => drawTree(board, places), [board, places]);
  const { width, height } = drawing;
  const frame = useRef<HTMLElement | null>(null);
  useEffect(() => {
    const node = drawing.rails.find(({ name }) => name === picked);
    const seen = frame.current;
    if (node === undefined || seen === null) return;
    // Only sideways: the page stays where the reader left it.
    const isSeen =
      node.x >= seen.scrollLeft && node.x + NODE_WIDTH <= seen.scrollLeft + seen.clientWidth;
    if (!isSeen) seen.scrollLeft = node.x - (seen.clientWidth - NODE_WIDTH) / 2;
  }, [picked, drawing]);
  const railOf = (name: string) => board.rails.find((rail) => rail.name === name);
  const lineOf = (name: string) => lines?.find(({ rail }) => rail.name === name);
  return (
    <figure ref={frame} className="rail-tree" aria-label={`Rails of ${board.name}`}>
      <div className="rail-tree-paper" style={{ width, height }}>
        <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
          {drawing.enables.map(({ key, path }) => (
            <path key={key} className="tree-enable" d={path} />
          ))}
          {drawing.feeds.map(({ key, path, through, signX, signY }) => (
            <g key={key}>
              <path className="tree-feed" d={path} />
              <path
                className="tree-sign"
                transform={`translate(${signX} ${signY})`}
                d={THROUGH_SIGNS[through]}
              />
            </g>
          ))}
          {drawing.rails.map(({ name, x, y }) => (
            <path
              key={name}
              className="tree-rail"
              d={`M${x} ${y + STROKE_AT}h${NODE_WIDTH}`}
              data-picked={name === picked}
            />
          ))}
        </svg>
        {drawing.rails.map(({ name, x, y }) => {
          const rail = railOf(name);
          const line = lineOf(name);
          const style = { left: x, top: y, width: NODE_WIDTH, height: NODE_HEIGHT };
          const face = (
            <>
              <span className="tree-name">{name}</span>
              <span className="tree-volts volts">
                {formatQuantity(rail?.nominalV ?? null, 'V', null, { prefix: 0 })}
              </span>
              <span className="tree-under">
                {line !== undefined && <VerdictSign verdict={line.verdict} isOdd={line.isOdd} />}
                {line === undefined && rail !== undefined && rail.fedBy.length > 0 && (
                  <span className="quiet">{rail.through}</span>
                )}
              </span>
            </>
          );
          return onPick === undefined ? (
            <div key={name} className="tree-node" style={style}>
              {face}
            </div>
          ) : (
            <button
              key={name}
              type="button"
              className="tree-node"
              style={style}
              aria-pressed={name === picked}
              onClick={() => onPick(name)}
            >
              {face}
            </button>
          );
        })}
      </div>
    </figure>
  );
}
