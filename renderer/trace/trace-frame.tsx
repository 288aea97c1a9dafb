import { useRef } from 'react';
import { CartesianGrid, ComposedChart, ReferenceLine, XAxis, YAxis, ZIndexLayer } from 'recharts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatQuantity } from '../../core/units/format.ts';
import type { Size } from '../parts/use-size.ts';
import { MarkFlags } from './mark-flags.tsx';
import { SideLabel } from './side-label.tsx';
import { clockWords, timeTicks } from './time-ticks.ts';
import type { TraceDrawing } from './trace-drawing.ts';
import { TraceLines } from './trace-lines.tsx';
import type { TickRange } from './trace-view.ts';
import { ampsDomain, axisTicks, tickDecimals, type ValueAxis, voltsDomain } from './value-axis.ts';

/** Pixels left and right of the plot: the stage strip under it starts and ends with them. */
export const AXIS_WIDTH = { amps: 64, volts: 60 } as const;
const TOP = 26;
const BOTTOM = 28;
const ABOVE_REFERENCES = 500;
const TICK_STYLE = { fontSize: 13, fill: 'var(--quiet)' } as const;

interface Props {
  readonly size: Size;
  readonly range: TickRange;
  readonly drawing: TraceDrawing;
}

/** Axes, grid and reference lines by Recharts; the curves inside are our own paths. */
export function TraceFrame({ size, range, drawing }: Props) {
  const { ampsAxis, voltsAxis, limitA, setV, runningA } = drawing;
  const times = timeTicks(range, Math.max(3, Math.floor(size.width / 120)));
  const timeDecimals = (times[1] ?? TICKS_PER_SECOND) - (times[0] ?? 0) < TICKS_PER_SECOND ? 2 : 0;
  const ampsTicks = axisTicks(ampsAxis, Math.max(2, Math.floor(size.height / 80)));
  const voltsTicks = axisTicks(voltsAxis, size.height > 260 ? 3 : 2);
  // Two labels of two lines each: nearer than this they would stand in each other.
  const isApart =
    limitA === null ||
    runningA === null ||
    Math.abs(limitA - runningA) * (size.height / ampsSpan(ampsAxis)) > 34;
  const ends = useRef([{ tick: 0 }]);

  return (
    <ComposedChart
      width={size.width}
      height={size.height}
      data={ends.current}
      margin={{ top: TOP, right: 0, bottom: 0, left: 0 }}
      accessibilityLayer={false}
    >
      <CartesianGrid
        stroke="var(--hairline)"
        horizontalPoints={gridLines(size, drawing, ampsTicks, voltsTicks)}
      />
      <XAxis
        dataKey="tick"
        type="number"
        domain={[range.fromTick, range.toTick]}
        ticks={times}
        interval={0}
        allowDataOverflow
        height={BOTTOM}
        tickFormatter={(tick: number) => clockWords(tick, timeDecimals)}
        tick={TICK_STYLE}
        tickLine={false}
        axisLine={{ stroke: 'var(--edge)' }}
      />
      <YAxis
        yAxisId="amps"
        width={AXIS_WIDTH.amps}
        domain={ampsDomain(ampsAxis)}
        ticks={ampsTicks}
        tickFormatter={tickWords(ampsTicks, 'A')}
        {...valueAxisStyle('var(--amps)')}
      />
      <YAxis
        yAxisId="volts"
        orientation="right"
        width={AXIS_WIDTH.volts}
        domain={voltsDomain(voltsAxis)}
        ticks={voltsTicks}
        tickFormatter={tickWords(voltsTicks, 'V')}
        {...valueAxisStyle('var(--volts)')}
      />
      {isOn(ampsAxis, runningA) && (
        <ReferenceLine
          yAxisId="amps"
          y={runningA}
          stroke="var(--edge)"
          strokeDasharray="2 5"
          {...(isApart && { label: sideLabel('runs at', runningA, 'var(--quiet)') })}
        />
      )}
      {isOn(ampsAxis, limitA) && (
        <ReferenceLine
          yAxisId="amps"
          y={limitA}
          stroke="var(--amps)"
          strokeDasharray="9 4"
          label={sideLabel('limit', limitA, 'var(--amps)')}
        />
      )}
      {isOn(voltsAxis, setV) && (
        <ReferenceLine
          yAxisId="volts"
          y={setV}
          stroke="var(--volts)"
          strokeDasharray="9 4"
          label={{
            value: `set ${formatQuantity(setV, 'V', null, { prefix: 0 })}`,
            position: 'insideBottomLeft',
            fontSize: 13,
            fill: 'var(--volts)',
          }}
        />
      )}
      <ZIndexLayer zIndex={ABOVE_REFERENCES}>
        <TraceLines range={range} drawing={drawing} />
        <MarkFlags range={range} marks={drawing.marks} />
      </ZIndexLayer>
    </ComposedChart>
  );
}

/** Heights of the horizontal hairlines: one for each tick of either lane. */
function gridLines(
  size: Size,
  { ampsAxis, voltsAxis }: TraceDrawing,
  ampsTicks: readonly number[],
  voltsTicks: readonly number[],
): number[] {
  const height = size.height - TOP - BOTTOM;
  const at = (ticks: readonly number[], [low, high]: readonly [number, number]) =>
    ticks.map((value) => TOP + ((high - value) / (high - low)) * height);
  return [...at(ampsTicks, ampsDomain(ampsAxis)), ...at(voltsTicks, voltsDomain(voltsAxis))];
}

function ampsSpan(axis: ValueAxis): number {
  const [low, high] = ampsDomain(axis);
  return high - low;
}

function valueAxisStyle(fill: string) {
  return {
    type: 'number' as const,
    interval: 0 as const,
    allowDataOverflow: true,
    tick: { ...TICK_STYLE, fill },
    tickLine: false,
    axisLine: false,
  };
}

function tickWords(ticks: readonly number[], unit: 'A' | 'V') {
  const decimals = tickDecimals(ticks);
  return (value: number) => formatQuantity(value, unit, decimals, { prefix: 0 });
}

function isOn(axis: ValueAxis, value: number | null): value is number {
  return value !== null && value >= axis.low && value <= axis.high;
}

function sideLabel(word: string, amps: number, fill: string) {
  const value = formatQuantity(amps, 'A', null, { prefix: 0 });
  return <SideLabel word={word} value={value} fill={fill} />;
}
