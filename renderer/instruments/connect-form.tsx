import { type FormEvent, useId, useState } from 'react';
import type {
  InstrumentAddress,
  InstrumentRole,
  LinkState,
  PortLine,
} from '../../core/contract/bench-calls.ts';
import { Choice } from '../job-book/job-form.tsx';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';
import { addressFrom } from './address-from.ts';

interface Props {
  readonly instrument: InstrumentRole;
  readonly link: LinkState;
  readonly ports: readonly PortLine[];
}

const BAUDS = ['9600', '19200', '38400', '57600', '115200'];

/** How an instrument is reached: a serial port, a network address, or the pretend bench. */
export function ConnectForm({ instrument, link, ports }: Props) {
  const { ask } = useActions();
  const listId = useId();
  const [by, setBy] = useState<InstrumentAddress['by']>('serial');
  const [text, setText] = useState({ path: '', baud: '9600', host: '', port: '5025' });
  const [wrong, setWrong] = useState<string | null>(null);
  const put = (field: keyof typeof text) => (event: { target: { value: string } }) =>
    setText({ ...text, [field]: event.target.value });

  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    const address = addressFrom(by, text);
    setWrong(typeof address === 'string' ? address : null);
    if (typeof address !== 'string') void ask('connect', { role: instrument, address });
  };
  const field = (name: keyof typeof text, words: string, list?: string) => (
    <label className="field">
      {words}
      <input
        className="field-input"
        list={list}
        autoComplete="off"
        maxLength={200}
        value={text[name]}
        onChange={put(name)}
      />
    </label>
  );
  return (
    <form className="connect-form" onSubmit={onSubmit} aria-label={`Connect the ${instrument}`}>
      <Choice
        legend="Reached by"
        name={`${instrument}-by`}
        value={by}
        options={[
          ['serial', 'Serial port'],
          ['tcp', 'Network'],
          ['pretend', 'Pretend bench'],
        ]}
        onChange={(event) => setBy(event.target.value as InstrumentAddress['by'])}
      />
      {by === 'serial' && (
        <div className="connect-fields">
          {field('path', 'Port', listId)}
          <datalist id={listId}>
            {ports.map((port) => (
              <option key={port.path} value={port.path}>
                {port.about}
              </option>
            ))}
          </datalist>
          <Pick
            label="Baud"
            className="field"
            value={text.baud}
            onPick={(baud) => setText({ ...text, baud })}
          >
            {BAUDS.map((baud) => (
              <option key={baud}>{baud}</option>
            ))}
          </Pick>
        </div>
      )}
      {by === 'tcp' && (
        <div className="connect-fields">
          {field('host', 'Host')}
          {field('port', 'Port number')}
        </div>
      )}
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
      <div className="form-keys">
        <button type="submit" className="plain strong">
          {link === 'lost' ? `Connect the ${instrument} again` : `Connect the ${instrument}`}
        </button>
        {link !== 'none' && (
          <button
            type="button"
            className="plain"
            onClick={() => void ask('disconnect', { role: instrument })}
          >
            Disconnect the {instrument}
          </button>
        )}
      </div>
    </form>
  );
}
