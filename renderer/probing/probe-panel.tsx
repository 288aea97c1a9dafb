import { useEffect } from 'react';
import type { ProbeState } from '../../core/contract/probing-calls.ts';
import { MeterNow } from '../checklist/meter-now.tsx';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { phaseWords } from './phase-words.ts';
import { ProbeSign } from './probe-sign.tsx';
import { ReadoutSwitch } from './readout-switch.tsx';
import { takenPlace, takenValue } from './taken-words.ts';
import { UnnamedReadings } from './unnamed-readings.tsx';
import { useHands } from './use-hands.ts';

const ALONG_WORDS: Readonly<Record<ProbeState['along'], string>> = {
  off: 'Hands-free',
  list: 'Hands-free, along the list',
  free: 'Hands-free, any point',
  view: 'Hands-free, for the rails',
};

/** Measuring without touching the keyboard: off, one line; on, the loudest thing beside the trace. */
export function ProbePanel() {
  const probe = useHands((state) => state.probe);
  const meter = useDeskState((state) => state.bench?.meter.link ?? 'none');
  const hasPoints = useDeskState(
    (state) =>
      state.job?.items.some((item) => item.needs === 'reading' && item.state === 'open') ?? false,
  );
  const { ask } = useActions();
  const isOn = probe !== null && probe.along !== 'off';
  const start = (along: 'list' | 'free') => void ask('startProbing', { along, itemIds: null });
  useKey('probing', () => {
    if (isOn) void ask('stopProbing', {});
    else start(hasPoints ? 'list' : 'free');
  });
  if (isOn) return <ProbeOn probe={probe} />;
  return (
    <section className="probe-off" aria-label="Hands-free">
      <h2>Hands-free</h2>
      {meter === 'live' ? (
        <>
          {hasPoints && (
            <button type="button" className="plain" onClick={() => start('list')}>
              Along the list <KeyCap>B</KeyCap>
            </button>
          )}
          <button type="button" className="plain" onClick={() => start('free')}>
            Any point {!hasPoints && <KeyCap>B</KeyCap>}
          </button>
        </>
      ) : (
        <p className="quiet">needs a meter</p>
      )}
      <ReadoutSwitch />
    </section>
  );
}

function ProbeOn({ probe }: { probe: ProbeState }) {
  const { ask, say } = useActions();
  const quantity = useDeskState((state) => state.bench?.meter.quantity ?? null);
  const { next, left, why, phase } = probe;
  const last = probe.taken[0] ?? null;
  const force = () => void ask('forceProbe', {});
  const undo = () => void ask('undoProbe', {});
  const skip = () => void ask('skipProbe', {});
  useKey('probeForce', force);
  useKey('probeUndo', undo, last !== null);
  useKey('probeSkip', skip, next !== null);
  useKey('pedal', force);
  const said = last === null ? '' : `Taken: ${takenValue(last)} ${takenPlace(last)}`;
  useEffect(() => {
    if (said !== '') say(said);
  }, [said, say]);

  return (
    <section className="probe-on" aria-label="Hands-free" data-phase={phase}>
      <header className="probe-head">
        <h2>{ALONG_WORDS[probe.along]}</h2>
        <ReadoutSwitch />
        <button type="button" className="plain" onClick={() => void ask('stopProbing', {})}>
          Stop <KeyCap>B</KeyCap>
        </button>
      </header>
      {next !== null && (
        <p className="probe-next">
          <span className="quiet">Next, {next.quantity}</span>
          <strong>{next.place || next.title}</strong>
          <span className="quiet">{left === 1 ? 'the last one' : `${left} left`}</span>
        </p>
      )}
      <p className="probe-phase" data-testid="probe-phase">
        <ProbeSign phase={phase} />
        {phaseWords(probe)}
      </p>
      <MeterNow />
      <div role="alert">{why !== null && <p className="probe-why">{why}</p>}</div>
      {phase === 'armed' && quantity === 'volts' && (
        <p className="quiet">A dead rail reads like the air: take it with Y.</p>
      )}
      {last !== null && (
        <p className="probe-last" data-testid="probe-last">
          <span className="quiet">{last.replaced ? 'Replaced by' : 'Taken'}</span>
          <strong>{takenValue(last)}</strong> <span>{takenPlace(last)}</span>
        </p>
      )}
      <div className="probe-keys">
        <button type="button" className="plain" onClick={force}>
          Take now <KeyCap>Y</KeyCap>
        </button>
        {last !== null && last.readingId !== null && (
          <button type="button" className="plain" onClick={undo}>
            Undo <KeyCap>U</KeyCap>
          </button>
        )}
        {next !== null && (
          <button type="button" className="plain" onClick={skip}>
            Pass over <KeyCap>K</KeyCap>
          </button>
        )}
      </div>
      {probe.along === 'free' && <UnnamedReadings taken={probe.taken} />}
    </section>
  );
}
