import { useState } from 'react';
import type { StageReport } from '../../core/stages/stage.ts';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly runId: string;
  readonly onReport: (report: StageReport) => void;
}

/** Names the stages of a kept run again, with the good runs that its board has by now. */
export function NameAgain({ runId, onReport }: Props) {
  const { ask } = useActions();
  const [words, setWords] = useState('');
  const name = async (): Promise<void> => {
    setWords('Naming…');
    const report = await ask('classifyAgain', { runId });
    if (report !== null) onReport(report);
    setWords(
      report === null ? '' : 'Named with the good runs of today. What was said before is kept.',
    );
  };
  return (
    <section className="name-again" aria-label="Stage names">
      <button type="button" className="plain" onClick={() => void name()}>
        Name the stages again
      </button>
      <p role="status" className="quiet">
        {words}
      </p>
    </section>
  );
}
