import { useState } from 'react';
import type { CopyWork } from '../../core/contract/copy-calls.ts';
import { useActions } from '../state/use-desk.ts';
import { bytesWords } from '../trace-files/bytes-words.ts';

/** The whole ledger as open files, for another program or another shop. */
export function ExportPart({ busy }: { readonly busy: CopyWork | null }) {
  const { ask } = useActions();
  const [words, setWords] = useState('');
  const write = async (): Promise<void> => {
    setWords('');
    const done = await ask('exportLedger', {});
    if (done === null) return;
    setWords(
      `Written to ${done.folder}: ${done.rows.toLocaleString('en')} rows, ${done.runs.toLocaleString('en')} runs, ${done.pictures.toLocaleString('en')} pictures, ${bytesWords(done.bytes)}.`,
    );
  };
  return (
    <section className="copies-part" aria-label="Export">
      <h2>Export</h2>
      <p className="quiet">
        Everything as open files: a file of JSON Lines a table, CSV of readings and samples, the
        pictures, and a README that says what each field is.
      </p>
      <div className="copies-keys">
        <button
          type="button"
          className="plain"
          disabled={busy !== null}
          onClick={() => void write()}
        >
          Export the whole ledger
        </button>
      </div>
      <p role="status" className="copies-words">
        {words}
      </p>
    </section>
  );
}
