import type { RunPlot } from '../../core/record/run-plot.ts';
import { STAGE_GLYPHS } from '../../core/stages/glyphs.ts';

/** A run drawn for print: amps, volts, limit, marks, and its stages under them on one time axis. */
export function RunFigure({
  plot,
  sentence,
}: {
  readonly plot: RunPlot;
  readonly sentence: string;
}) {
  const { frame } = plot;
  return (
    <svg
      className="plot"
      viewBox={`0 0 ${plot.width} ${plot.height}`}
      role="img"
      aria-label={sentence}
    >
      <Axes plot={plot} />
      {plot.limit !== null && (
        <>
          <path className="limit" d={`M${frame.left} ${plot.limit.at}H${frame.right}`} />
          <text className="limit-word" x={frame.left + 4} y={plot.limit.at - 3}>
            {plot.limit.text}
          </text>
        </>
      )}
      {plot.pins.map((pin) => (
        <g key={pin.letter}>
          <path className="pin" d={`M${pin.at} ${frame.top - 6}V${frame.bottom}`} />
          {pin.lettered && (
            <text className="pin-letter" x={pin.at} y={frame.top - 9}>
              {pin.letter}
            </text>
          )}
        </g>
      ))}
      <path className="volts" d={plot.volts} />
      <path className="amps" d={plot.amps} />
      <Strip plot={plot} />
    </svg>
  );
}

function Axes({ plot }: { readonly plot: RunPlot }) {
  const { frame } = plot;
  return (
    <>
      {plot.ampsTicks.map((tick) => (
        <g key={tick.text}>
          <path className="grid" d={`M${frame.left} ${tick.at}H${frame.right}`} />
          <text className="amps-number" x={frame.left - 6} y={tick.at + 3.5}>
            {tick.text}
          </text>
        </g>
      ))}
      {plot.voltsTicks.map((tick) => (
        <text key={tick.text} className="volts-number" x={frame.right + 6} y={tick.at + 3.5}>
          {tick.text}
        </text>
      ))}
      <text className="amps-name" x={0} y={11}>
        {`Amps, ${plot.ampsUnit}`}
      </text>
      {plot.voltsTicks.length > 0 && (
        <text className="volts-name" x={plot.width} y={11}>
          Volts, V
        </text>
      )}
      {plot.timeTicks.map((tick) => (
        <g key={tick.text}>
          <path className="grid" d={`M${tick.at} ${frame.bottom}v4`} />
          <text className="time-number" x={tick.at} y={frame.bottom + 15}>
            {tick.text}
          </text>
        </g>
      ))}
    </>
  );
}

function Strip({ plot }: { readonly plot: RunPlot }) {
  const { stripTop: top, stripHeight: height } = plot;
  return plot.strip.map((cell) => (
    <g key={cell.number}>
      <rect
        className={`cell ${cell.stage}`}
        x={cell.left}
        y={top}
        width={Math.max(0, cell.right - cell.left)}
        height={height}
      />
      {cell.shows !== 'nothing' && (
        <text className="cell-number" x={cell.left + 4} y={top + 16}>
          {cell.number}
        </text>
      )}
      {(cell.shows === 'glyph' || cell.shows === 'words') && (
        <path
          className="cell-glyph"
          transform={`translate(${cell.left + 9 + 5.6 * String(cell.number).length} ${top + 4})`}
          d={STAGE_GLYPHS[cell.stage]}
        />
      )}
      {cell.shows === 'words' && (
        <text
          className="cell-words"
          x={cell.left + 38 + 5.6 * String(cell.number).length}
          y={top + 16}
        >
          {cell.words}
        </text>
      )}
    </g>
  ));
}
