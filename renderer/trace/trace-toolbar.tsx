import type { ReactNode } from 'react';
import { KeyCap } from '../parts/key-cap.tsx';
import { SPANS, type TraceView } from './trace-view.ts';

interface Props {
  readonly view: TraceView;
  readonly onView: (view: TraceView) => void;
  readonly isLive: boolean;
  readonly hasUnder: boolean;
  readonly isTable: boolean;
  readonly onTable: () => void;
  readonly end?: ReactNode;
}

/** What the curves are, and how much of the run is shown. */
export function TraceToolbar(props: Props) {
  const { view, onView } = props;
  return (
    <div className="trace-toolbar">
      <ul className="legend" aria-label="Curves">
        <li className="legend-amps">Draw</li>
        <li className="legend-volts">Volts</li>
        {props.hasUnder && <li className="legend-under">Earlier run</li>}
      </ul>
      {props.end}
      <fieldset className="segments">
        <legend className="heard-only">Window of the trace</legend>
        {SPANS.map((span) => (
          <button
            key={span.words}
            type="button"
            className="segment"
            aria-pressed={view.follow && view.spanTicks === span.spanTicks}
            onClick={() => onView({ follow: true, spanTicks: span.spanTicks })}
          >
            {span.words} <KeyCap>{span.key}</KeyCap>
          </button>
        ))}
      </fieldset>
      {!view.follow && (
        <button
          type="button"
          className="plain"
          onClick={() => onView({ follow: true, spanTicks: view.toTick - view.fromTick })}
        >
          {props.isLive ? 'Follow live' : 'To the end'} <KeyCap>G</KeyCap>
        </button>
      )}
      <button type="button" className="plain" aria-pressed={props.isTable} onClick={props.onTable}>
        Table
      </button>
    </div>
  );
}
