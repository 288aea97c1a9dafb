import { useState } from 'react';
import { TRACE_FORMATS, type TraceFormat } from '../../core/contract/trace-file-calls.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';
import { bytesWords } from './bytes-words.ts';

const FORMAT_WORDS: Readonly<Record<TraceFormat, string>> = {
  csv: 'CSV',
  jsonl: 'JSON Lines',
  parquet: 'Parquet',
};

/** Every sample of a run to a file. */
export function ExportRun({ runId }: { runId: string }) {
  const { ask } = useActions();
  const [format, setFormat] = useState<TraceFormat>('csv');
  const [state, setState] = useState({ isBusy: false, words: '' });
  const write = async (): Promise<void> => {
    setState({ isBusy: true, words: 'Writing the trace…' });
    const file = await ask('exportRun', { id: runId, format });
    const words =
      file === null
        ? ''
        : `Written: ${file.path}, ${file.samples.toLocaleString('en')} readings, ${bytesWords(file.bytes)}.`;
    setState({ isBusy: false, words });
  };
  return (
    <section className="export-run" aria-label="Export the trace">
      <Pick
        label="Trace as"
        value={format}
        onPick={(picked) => setFormat(TRACE_FORMATS.find((one) => one === picked) ?? 'csv')}
      >
        {TRACE_FORMATS.map((one) => (
          <option key={one} value={one}>
            {FORMAT_WORDS[one]}
          </option>
        ))}
      </Pick>
      <button
        type="button"
        className="plain"
        aria-disabled={state.isBusy}
        onClick={() => {
          if (!state.isBusy) void write();
        }}
      >
        Export trace
      </button>
      <p role="status" className="export-words">
        {state.words}
      </p>
    </section>
  );
}
