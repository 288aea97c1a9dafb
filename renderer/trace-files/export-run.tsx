import { useState } from 'react';
import { TRACE_FORMATS, type TraceFormat } from '../../core/contract/trace-file-calls.ts';
import { Pick } from '../parts/pick.tsx';
import { WriteFile } from '../parts/write-file.tsx';
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
  const write = async (): Promise<string | null> => {
    const file = await ask('exportRun', { id: runId, format });
    if (file === null) return null;
    const readings = file.samples.toLocaleString('en');
    return `${file.path}, ${readings} readings, ${bytesWords(file.bytes)}.`;
  };
  return (
    <section className="export-run" aria-label="Export the trace">
      <WriteFile does="Export trace" what="the trace" write={write}>
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
      </WriteFile>
    </section>
  );
}
