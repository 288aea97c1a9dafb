import { useState } from 'react';
import type { PortLine } from '../../core/contract/bench-calls.ts';
import type { InstrumentFound } from '../../core/contract/setup-calls.ts';
import { useActions } from '../state/use-desk.ts';

/** One port: nobody is asked before the technician says so, and asking changes nothing there. */
export function PortRow({ port }: { port: PortLine }) {
  const { ask, tryAsk } = useActions();
  const [found, setFound] = useState<InstrumentFound | null>(null);
  const [words, setWords] = useState('');
  const [isAsking, setAsking] = useState(false);

  const askWho = async (): Promise<void> => {
    setAsking(true);
    setWords('Asking at the usual speeds…');
    const answer = await tryAsk('askWhoIsThere', { by: 'serial', path: port.path });
    setAsking(false);
    setFound(answer.ok ? answer.value : null);
    setWords(answer.ok ? '' : `${answer.trouble.what}. ${answer.trouble.todo}`);
  };
  const use = (one: InstrumentFound): void => {
    const address = { by: 'serial', path: port.path, baud: one.baud ?? 9600 } as const;
    void ask('connect', { role: one.role, address });
  };
  return (
    <li className="part-line port-row">
      <strong>{port.path}</strong> <span className="quiet">{port.about}</span>
      <button
        type="button"
        className="plain"
        aria-disabled={isAsking}
        aria-label={`Ask who is on ${port.path}`}
        onClick={() => {
          if (!isAsking) void askWho();
        }}
      >
        Ask who is there
      </button>
      {found !== null && (
        <>
          <span>
            A {found.role}: {found.identity}, {found.baud} baud, dialect {found.dialect},{' '}
            {found.rateHz.toFixed(0)} readings a second, now {found.reading}
            {found.role === 'supply' && !found.canSwitch && '; it cannot be switched from here'}.
          </span>
          <button type="button" className="plain strong" onClick={() => use(found)}>
            Use as {found.role}
          </button>
        </>
      )}
      <span role="status">{words}</span>
    </li>
  );
}
