import { useEffect } from 'react';
import { useActions } from '../state/use-desk.ts';
import { answerScans } from './scan-board.ts';

/** Opens the job of a scanned bag tag from wherever the window is. */
export function Scans() {
  const { tryAsk, ask, openJob, say } = useActions();
  useEffect(
    () =>
      answerScans(async ({ code, isInField, restore }) => {
        // Digits in a field may be anything: only a tag that is known is taken out of it.
        const quiet = isInField ? await tryAsk('findTag', { code }) : null;
        const found =
          quiet === null ? await ask('findTag', { code }) : quiet.ok ? quiet.value : null;
        if (found === null) return;
        restore();
        openJob(found.jobId);
        say(`Job ${found.number}, from its bag tag.`);
      }),
    [tryAsk, ask, openJob, say],
  );
  return null;
}
