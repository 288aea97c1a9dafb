import { useState } from 'react';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

const PAPERS = ['A4', 'Letter'] as const;

/** The job's record as a PDF, on the paper chosen. */
export function ExportRecord({ jobId }: { jobId: string }) {
  const { ask } = useActions();
  const [paper, setPaper] = useState<(typeof PAPERS)[number]>('A4');
  const [state, setState] = useState<{ isBusy: boolean; words: string }>({
    isBusy: false,
    words: '',
  });
  const write = async (): Promise<void> => {
    setState({ isBusy: true, words: 'Writing the record…' });
    const file = await ask('exportRecord', { jobId, paper });
    const words = file === null ? '' : `Written: ${file.path}, ${file.pages} pages.`;
    setState({ isBusy: false, words });
  };
  return (
    <div className="export-record">
      <Pick
        label="Paper"
        isQuiet
        value={paper}
        onPick={(picked) => setPaper(PAPERS.find((one) => one === picked) ?? 'A4')}
      >
        {PAPERS.map((one) => (
          <option key={one}>{one}</option>
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
        Export record
      </button>
      <p role="status" className="export-words">
        {state.words}
      </p>
    </div>
  );
}
