import { usePlotArea } from 'recharts';
import type { Mark } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { placeFlags } from './place-flags.ts';
import type { TickRange } from './trace-view.ts';

/** Marks as hairlines with a flag at the head; words where there is room. */
export function MarkFlags({ range, marks }: { range: TickRange; marks: readonly Mark[] }) {
  const area = usePlotArea();
  if (area === undefined) return null;
  const across = area.width / (range.toTick - range.fromTick);
  const toX = (atS: number) => (atS * TICKS_PER_SECOND - range.fromTick) * across;
  return (
    <g className="mark-flags">
      {placeFlags(marks, toX, area.width).map(({ mark, x, words, isLeft }) => {
        const at = area.x + x;
        return (
          <g key={`${mark.mark}${mark.atS}${mark.text}`} className={`mark mark-${mark.mark}`}>
            <line x1={at} x2={at} y1={area.y - 12} y2={area.y + area.height} />
            <path d={`M${at} ${area.y - 22}h7l-3 5 3 5h-7z`} />
            {words !== '' && (
              <text
                x={isLeft ? at - 5 : at + 11}
                y={area.y - 12}
                textAnchor={isLeft ? 'end' : 'start'}
              >
                {words}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}
