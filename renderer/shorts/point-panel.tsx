import { useRef, useState } from 'react';
import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { TwoPress } from '../parts/two-press.tsx';
import type { ProbeAim } from '../rails/probe-aim.ts';
import { TypedValue } from '../rails/typed-value.tsx';
import { useHandsFree } from '../rails/use-hands-free.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { type Column, columnAt, columnWords, millivolts } from './hunt-words.ts';
import type { usePointReading } from './use-point-reading.ts';

interface Props {
  readonly whole: HuntWhole;
  readonly aimId: string | null;
  readonly reading: ReturnType<typeof usePointReading>;
  /** Something was kept: the next point is up. */
  readonly onDone: () => void;
}

/** The point that is touched now, what the meter shows there, and which column it goes to. */
export function PointPanel({ whole, aimId, reading, onDone }: Props) {
  const [isTyping, setTyping] = useState(false);
  const [isHandsFree, setHandsFree] = useState(false);
  const { ask } = useActions();
  const meterV = useDeskState(({ bench }) =>
    bench?.meter.link === 'live' && bench.meter.quantity === 'volts' ? bench.meter.value : null,
  );
  const isMeterLive = useDeskState((state) => state.bench?.meter.link === 'live');
  const point = whole.hunt.points.find(({ id }) => id === aimId) ?? null;
  const done = (isKept: boolean): void => {
    if (isKept) onDone();
  };
  const take = async (): Promise<void> => {
    if (point !== null) done(await reading.take(point.id));
  };
  useKey('takeReading', () => void take(), point !== null);
  useKey('typeReading', () => setTyping(true), point !== null);
  useKey('handsFree', () => setHandsFree(!isHandsFree), point !== null);
  const aim: ProbeAim = { rail: whole.hunt.rail, what: 'volts', other: null };
  const before = useRef<string | null>(null);
  const why = useHandsFree(isHandsFree && !isTyping && point !== null, aim, (taken, again) => {
    const at = again ? (before.current ?? point?.id) : point?.id;
    if (at === undefined || taken.value === null) return;
    before.current = at;
    const { value: volts, decimals } = taken;
    void reading.keep(at, { volts, decimals }, 'meter').then((isKept) => done(isKept && !again));
  });
  if (point === null) return null;
  const column = columnAt(reading.amps ?? 0, whole.found.columns.firstA);
  const readings = point.readings.toReversed();
  return (
    <section className="measure point-panel" aria-label="Point">
      <h2>
        {point.name} <span className="quiet">{sayColumn(column, whole, reading.amps)}</span>
      </h2>
      {isTyping ? (
        <TypedValue
          quantity="volts"
          onCancel={() => setTyping(false)}
          onSave={({ value: volts, decimals }) => {
            if (volts === null) return;
            void reading.keep(point.id, { volts, decimals }, 'typed').then((isKept) => {
              if (isKept) setTyping(false);
              done(isKept);
            });
          }}
        />
      ) : (
        <>
          <p className="meter-number" data-testid="point-reading">
            {millivolts(meterV)}
          </p>
          <div className="measure-keys">
            <button
              type="button"
              className="plain strong"
              aria-disabled={!isMeterLive}
              onClick={() => void take()}
            >
              Take reading <KeyCap>R</KeyCap>
            </button>
            <button type="button" className="plain" onClick={() => setTyping(true)}>
              Type it <KeyCap>T</KeyCap>
            </button>
            <button
              type="button"
              className="plain"
              aria-pressed={isHandsFree}
              onClick={() => setHandsFree(!isHandsFree)}
            >
              Hands free <KeyCap>H</KeyCap>
            </button>
          </div>
        </>
      )}
      <p className="quiet" role="status">
        {reading.why ??
          (isHandsFree
            ? (why ??
              'Taken by itself while current flows. Without current a point reads like a lead in the air: take those with R.')
            : '')}
      </p>
      {readings.length > 0 && (
        <details>
          <summary>Its readings</summary>
          <ul className="point-readings">
            {readings.map(({ id, volts, amps, source }) => (
              <li key={id}>
                <span className="number">{millivolts(volts)}</span>{' '}
                <span className="quiet">
                  at {amps === 0 ? 'no current' : formatQuantity(amps, 'A', null, { digits: 3 })}
                  {source === 'typed' ? ', typed' : ''}
                </span>
                <button
                  type="button"
                  className="in-text"
                  onClick={() => void ask('forgetHuntReading', { readingId: id })}
                >
                  forget it
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
      <TwoPress
        words="Take the point away"
        sure="Press again: it goes with its readings"
        onSure={() => void ask('removeHuntPoint', { pointId: point.id })}
      />
    </section>
  );
}

function sayColumn(column: Column, whole: HuntWhole, amps: number | null): string {
  if (amps === null) return 'the supply does not tell what flows';
  if (column === 'zero') return 'without current';
  const now = formatQuantity(amps, 'A', null, { digits: 3 });
  const isNew = column === 'second' && whole.found.columns.secondA === null;
  return column === 'first' || isNew
    ? `at ${now}`
    : `at ${now}, beside ${columnWords('second', whole)}`;
}
