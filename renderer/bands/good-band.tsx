import { useContext } from 'react';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { Plane } from '../trace/trace-paths.ts';
import { BandContext } from './band-context.ts';
import { bandPaths } from './band-path.ts';

/** Pixels that the words at a flag take. */
const WORDS_WIDTH = 120;

/** The known-good band behind the curves, and a flag at each place where the run leaves it. */
export function GoodBand({ plane, top, bottom }: { plane: Plane; top: number; bottom: number }) {
  const shown = useContext(BandContext);
  if (shown === null) return null;
  const { area, edges } = bandPaths(shown.variant, shown.startTick, shown.toAmps, plane);
  return (
    <g className="good-band" data-testid="good-band">
      <path d={area} className="good-band-area" />
      <path d={edges} className="good-band-edges" />
      {shown.leavings.map((leaving, i) => {
        const x = plane.x(leaving.fromS * TICKS_PER_SECOND);
        const next = shown.leavings[i + 1];
        const hasRoom =
          next === undefined || plane.x(next.fromS * TICKS_PER_SECOND) - x > WORDS_WIDTH;
        return (
          <g key={leaving.fromS} className="band-left" data-testid="band-left">
            <line x1={x} x2={x} y1={top} y2={bottom} />
            <path d={`M${x} ${top + 2}l9 5l-9 5z`} />
            {hasRoom && (
              <text x={x + 12} y={top + 12}>
                Leaves the band
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}
