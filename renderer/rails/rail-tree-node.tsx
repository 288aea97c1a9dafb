import { memo } from 'react';
import type { Rail } from '../../core/rails/board-model.ts';
import type { JobWalk } from '../../core/rails/job-walk.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { NODE_HEIGHT, NODE_WIDTH } from './rail-tree-drawing.ts';
import { VerdictSign } from './verdict-sign.tsx';

interface Props {
  readonly rail: Rail;
  readonly line: JobWalk['rails'][number] | undefined;
  readonly x: number;
  readonly y: number;
  readonly isPicked: boolean;
  /** The one rail of the tree that Tab comes to. */
  readonly isStop: boolean;
  readonly onReach: (rail: string) => void;
  readonly onPick: (rail: string) => void;
}

/** A rail of the tree: name, volts, and its verdict or how it is fed. */
export const RailTreeNode = memo(function RailTreeNode(props: Props) {
  const { rail, line, x, y, isPicked, isStop, onReach, onPick } = props;
  return (
    <button
      type="button"
      className="tree-node"
      data-rail={rail.name}
      style={{ left: x, top: y, width: NODE_WIDTH, height: NODE_HEIGHT }}
      aria-pressed={isPicked}
      tabIndex={isStop ? 0 : -1}
      onFocus={() => onReach(rail.name)}
      onClick={() => onPick(rail.name)}
    >
      <span className="tree-name">{rail.name}</span>
      <span className="tree-volts volts">
        {formatQuantity(rail.nominalV, 'V', null, { prefix: 0 })}
      </span>
      <span className="tree-under">
        {line !== undefined && <VerdictSign verdict={line.verdict} isOdd={line.isOdd} />}
        {line === undefined && rail.fedBy.length > 0 && (
          <span className="quiet">{rail.through}</span>
        )}
      </span>
    </button>
  );
});
