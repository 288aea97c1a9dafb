import { useCallback, useEffect, useState } from 'react';
import type { PortLine } from '../../core/contract/bench-calls.ts';
import { AttentionPanel } from '../attention/attention-panel.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { ConnectForm } from './connect-form.tsx';
import { MeterPanel } from './meter-panel.tsx';
import { PortRow } from './port-row.tsx';
import { SaveByteLog } from './save-byte-log.tsx';
import { SupplyPanel } from './supply-panel.tsx';

/** Ports, what is connected, what it reads now, and what went wrong. */
export function InstrumentsView() {
  const bench = useDeskState((state) => state.bench);
  const { ask } = useActions();
  const [ports, setPorts] = useState<{ ports: readonly PortLine[]; why: string | null } | null>(
    null,
  );
  const look = useCallback(async () => {
    setPorts(await ask('listPorts', {}));
  }, [ask]);
  useEffect(() => void look(), [look]);
  if (bench === null) return <main className="instruments">The bench is being opened.</main>;
  const found = ports?.ports ?? [];
  return (
    <main className="instruments">
      <section className="instrument" aria-label="Supply">
        <SupplyPanel supply={bench.supply} />
        <ConnectForm instrument="supply" link={bench.supply.link} ports={found} />
        <SaveByteLog instrument="supply" />
      </section>
      <section className="instrument" aria-label="Meter">
        <MeterPanel meter={bench.meter} />
        <ConnectForm instrument="meter" link={bench.meter.link} ports={found} />
        <SaveByteLog instrument="meter" />
      </section>
      <AttentionPanel />
      <section className="ports" aria-label="Ports">
        <div className="part-head">
          <h2>Ports seen</h2>
          <button type="button" className="plain" onClick={() => void look()}>
            Look again
          </button>
        </div>
        {ports?.why != null && <p>{ports.why} A port can still be typed above.</p>}
        {ports !== null && found.length === 0 && ports.why === null && (
          <p className="quiet">
            No serial port is seen. Plug the instrument in and look again, or type its path above.
          </p>
        )}
        <ol>
          {found.map((port) => (
            <PortRow key={port.path} port={port} />
          ))}
        </ol>
        <p className="quiet">
          Connecting never resets an instrument and never changes its output.
          {bench.watcherReady
            ? ' The watcher is ready: if this app dies, it switches the output off.'
            : ' The watcher is not ready: the output cannot be switched on yet.'}
        </p>
      </section>
    </main>
  );
}
