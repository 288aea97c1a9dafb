import { memo } from 'react';
import { NODE_WIDTH, STROKE_AT, THROUGH_SIGNS, type TreeDrawing } from './rail-tree-drawing.ts';

interface Props {
  readonly drawing: TreeDrawing;
  readonly picked: string | null;
}

/** On a board of more rails than this only the enables of the picked one are drawn. */
const MOST_WITH_ALL_ENABLES = 40;

/** Feeds, enables and the rails' own strokes. */
export const RailTreeLines = memo(function RailTreeLines({ drawing, picked }: Props) {
  const { width, height } = drawing;
  const isCrowded = drawing.rails.length > MOST_WITH_ALL_ENABLES;
  const enables = drawing.enables.filter(
    ({ from, to }) => !isCrowded || from === picked || to === picked,
  );
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      {enables.map(({ key, path }) => (
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
  );
});
