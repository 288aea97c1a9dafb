import { useState } from 'react';
import type { InstrumentRole } from '../../core/contract/bench-calls.ts';
import { useActions } from '../state/use-desk.ts';

/** Every byte of the last minutes, to a file: for when something does not answer. */
export function SaveByteLog({ instrument }: { instrument: InstrumentRole }) {
  const { ask } = useActions();
  const [words, setWords] = useState('');
  const save = async (): Promise<void> => {
    const file = await ask('saveByteLog', { role: instrument });
    setWords(file === null ? '' : `Written: ${file.path}.`);
  };
  return (
    <p className="byte-log">
      <button type="button" className="plain" onClick={() => void save()}>
        Save the {instrument}’s byte log
      </button>{' '}
      <span role="status">{words}</span>
    </p>
  );
}
