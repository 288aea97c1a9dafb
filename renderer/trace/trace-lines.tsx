import { createContext, useContext, useId } from 'react';
import { usePlotArea } from 'recharts';
import type { TraceWindow } from '../../core/trace/sample.ts';
import { GoodBand } from '../bands/good-band.tsx';
import type { UnderRun } from './trace-drawing.ts';
import { type Plane, tracePaths } from './trace-paths.ts';
import type { TickRange } from './trace-view.ts';
import { LANES, type ValueAxis } from './value-axis.ts';

/** What the curves are drawn from: handed past the frame, which need not know. */
export interface Curves {
  readonly window: TraceWindow;
  readonly under: UnderRun | null;
}
export const CurvesContext = createContext<Curves | null>(null);

interface Props {
  readonly range: TickRange;
  readonly ampsAxis: ValueAxis;
  readonly voltsAxis: ValueAxis;
}

/** The curves: volts quietly below, the draw loud above, an earlier run pale beneath it. */
export function TraceLines({ range, ampsAxis, voltsAxis }: Props) {
  const curves = useContext(CurvesContext);
  const area = usePlotArea();
  const clip = useId();
  if (area === undefined || curves === null) return null;
  const { window, under } = curves;
  const across = area.width / (range.toTick - range.fromTick);
  const x = (tick: number) => area.x + (tick - range.fromTick) * across;
  const ampsPlane = { x, y: lane(area.y, area.height * LANES.amps, ampsAxis) };
  const voltsTop = area.y + area.height * (LANES.amps + LANES.gap);
  const voltsPlane = { x, y: lane(voltsTop, area.height * LANES.volts, voltsAxis) };

  const volts = tracePaths(
    window,
    { min: window.voltsMin, max: window.voltsMax, mean: window.voltsMean },
    voltsPlane,
  );
  const amps = tracePaths(window, ampsOf(window), ampsPlane);
  const below = under === null ? null : underPath(under, ampsPlane);

  return (
    <g className="trace-lines">
      <clipPath id={clip}>
        <rect x={area.x} y={area.y - 2} width={area.width} height={area.height + 4} />
      </clipPath>
      <g clipPath={`url(#${clip})`} strokeLinejoin="round" strokeLinecap="round">
        <GoodBand plane={ampsPlane} top={area.y} bottom={area.y + area.height * LANES.amps} />
        {below !== null && <path d={below} className="line-under" data-testid="line-under" />}
        <path d={volts.band} className="band-volts" />
        <path d={volts.line} className="line-volts" data-testid="line-volts" />
        <path d={amps.band} className="band-amps" />
        <path d={amps.line} className="line-amps" data-testid="line-amps" />
      </g>
    </g>
  );
}

function lane(top: number, height: number, axis: ValueAxis): (value: number) => number {
  const perUnit = height / (axis.high - axis.low);
  return (value) => top + (axis.high - value) * perUnit;
}

function ampsOf(window: TraceWindow) {
  return { min: window.ampsMin, max: window.ampsMax, mean: window.ampsMean };
}

function underPath(under: UnderRun, plane: Plane): string {
  const shifted = { x: (tick: number) => plane.x(tick + under.shiftTicks), y: plane.y };
  return tracePaths(under.window, ampsOf(under.window), shifted).line;
}
