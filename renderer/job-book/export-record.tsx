import { useState } from 'react';
import { Pick } from '../parts/pick.tsx';
import { WriteFile } from '../parts/write-file.tsx';
import { useActions } from '../state/use-desk.ts';

const PAPERS = ['A4', 'Letter'] as const;

/** The job's record as a PDF, on the paper chosen. */
export function ExportRecord({ jobId }: { jobId: string }) {
  const { ask } = useActions();
  const [paper, setPaper] = useState<(typeof PAPERS)[number]>('A4');
  const write = async (): Promise<string | null> => {
    const file = await ask('exportRecord', { jobId, paper });
    return file === null ? null : `${file.path}, ${file.pages} pages.`;
  };
  return (
    <div className="export-record">
      <WriteFile does="Export record" what="the record" write={write}>
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
      </WriteFile>
    </div>
  );
}
