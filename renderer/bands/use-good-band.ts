import { useEffect, useMemo, useState } from 'react';
import type { BandFound } from '../../core/bands/known-good-band.ts';
import type { Run } from '../../core/job/job.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import type { TraceSource } from '../live/trace-source.ts';
import { useActions } from '../state/use-desk.ts';
import { type ShownBand, shownBand } from './shown-band.ts';

export interface GoodBandState {
  /** What the ledger knows of the board model's good runs; null until it has answered. */
  readonly found: BandFound | null;
  readonly shown: ShownBand | null;
}

/** The band for a powered run and where the run leaves it; judged again when its stages change. */
export function useGoodBand(
  run: Run | null,
  report: StageReport | null,
  source: TraceSource | null,
): GoodBandState {
  const { ask } = useActions();
  const [found, setFound] = useState<BandFound | null>(null);
  const isPowered = run?.kind === 'powered';
  const runId = run?.id ?? null;
  const jobId = run?.jobId ?? null;
  const setV = run?.setV ?? null;
  const feed = run?.feed ?? null;
  useEffect(() => {
    setFound(null);
    if (!isPowered || feed === null) return;
    let isWanted = true;
    const asked = { jobId, boardModel: null, feed, feedV: setV, notRunId: runId };
    void ask('bandFor', asked).then((answer) => {
      if (isWanted) setFound(answer);
    });
    return () => {
      isWanted = false;
    };
  }, [ask, isPowered, runId, jobId, setV, feed]);
  const feedV = setV ?? report?.stages.at(-1)?.meanV ?? null;
  // A head that is dragged moves the source, not the report: the whole run is judged once.
  const shown = useMemo(
    () => (source === null ? null : shownBand(found, report, source, feedV)),
    [found, report, source, feedV],
  );
  return { found, shown };
}
