import { WriteFile } from '../parts/write-file.tsx';
import { useActions } from '../state/use-desk.ts';

/** The bag tag as a PDF of its own size, to print and put in with the board. */
export function PrintTag({ jobId }: { jobId: string }) {
  const { ask } = useActions();
  const write = async (): Promise<string | null> => {
    const file = await ask('exportTag', { jobId });
    return file === null ? null : `${file.path}.`;
  };
  return (
    <div className="export-record">
      <WriteFile does="Bag tag" what="the bag tag" write={write}>
        {null}
      </WriteFile>
    </div>
  );
}
