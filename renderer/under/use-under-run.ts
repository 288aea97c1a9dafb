import { useEffect, useState } from 'react';
import type { StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { readSamples } from '../live/read-samples.ts';
import { createRunTrace, type RunTrace } from '../live/run-trace.ts';
import { useActions, useDesk } from '../state/use-desk.ts';

export interface EarlierRun {
  readonly trace: RunTrace;
  readonly report: StageReport;
}

/** Reads an earlier run whole, to be laid under; null until its first piece is there. */
export function useUnderRun(runId: string | null): EarlierRun | null {
  const { bridge } = useDesk();
  const { ask } = useActions();
  const [earlier, setEarlier] = useState<EarlierRun | null>(null);
  useEffect(() => {
    setEarlier(null);
    if (runId === null) return;
    let isWanted = true;
    const read = async (): Promise<void> => {
      const kept = await ask('readRun', { id: runId });
      if (kept === null || !isWanted) return;
      const trace = createRunTrace(runId);
      const toTick = Math.ceil(kept.report.durationS * TICKS_PER_SECOND) + 1;
      await readSamples(bridge, { runId, fromTick: 0, toTick }, (piece) => {
        trace.append(piece);
        if (isWanted) setEarlier({ trace, report: kept.report });
        return isWanted;
      });
    };
    void read();
    return () => {
      isWanted = false;
    };
  }, [runId, bridge, ask]);
  return earlier;
}
