import { useEffect, useMemo, useState } from 'react';
import type { Run } from '../../core/job/job.ts';
import { STAGE_WORDS, type StageReport } from '../../core/stages/stage.ts';
import { REGULATION_CODES, TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { BandContext } from '../bands/band-context.ts';
import { BandWords } from '../bands/band-words.tsx';
import { useGoodBand } from '../bands/use-good-band.ts';
import { NameAgain } from '../evidence/name-again.tsx';
import { LikeRuns } from '../like/like-runs.tsx';
import { Readouts } from '../sheet/readouts.tsx';
import { SheetHead } from '../sheet/sheet-head.tsx';
import { useDesk } from '../state/use-desk.ts';
import { clockWords } from '../trace/time-ticks.ts';
import { TraceFigure } from '../trace/trace-figure.tsx';
import type { TraceView } from '../trace/trace-view.ts';
import { useSpanKeys } from '../trace/use-span-keys.ts';
import { ExportRun } from '../trace-files/export-run.tsx';
import { clipReport } from './clip-report.ts';
import { NoteHere } from './note-here.tsx';
import { ReplayBar } from './replay-bar.tsx';
import { ReplayFacts } from './replay-facts.tsx';
import { createReplaySource } from './replay-source.ts';
import { usePlayHead } from './use-play-head.ts';

interface Props {
  readonly run: Run;
  readonly report: StageReport;
}

/** The power-up sheet again, with a head instead of a hand. */
export function ReplaySheet({ run, report: kept }: Props) {
  const [report, setReport] = useState(kept);
  const { bridge } = useDesk();
  const lastTick = Math.ceil(Math.max(run.durationS, report.durationS) * TICKS_PER_SECOND);
  const source = useMemo(
    () => createReplaySource(run.id, lastTick, bridge, Math.max(1, run.samples)),
    [run.id, lastTick, bridge, run.samples],
  );
  const [decimals, setDecimals] = useState({ volts: 2, amps: 3 });
  const [isWhole, setWhole] = useState(false);
  const [view, setView] = useState<TraceView>({ follow: true, spanTicks: null });
  const player = usePlayHead(lastTick, source.setHead);
  const { put } = player;
  // biome-ignore lint/correctness/useExhaustiveDependencies: once for each run
  useEffect(() => {
    let isWanted = true;
    put(lastTick);
    void source
      .load(() => isWanted)
      .then(() => {
        if (!isWanted) return;
        setDecimals(source.decimals());
        setWhole(true);
        put(lastTick);
      });
    return () => {
      isWanted = false;
    };
  }, [source]);
  useSpanKeys(view, setView, source.endTick);
  const goodBand = useGoodBand(run, report, isWhole ? source.whole : null);

  const atS = player.head / TICKS_PER_SECOND;
  const clipped = clipReport(report, atS);
  const now = clipped.stages.at(-1) ?? null;
  const sample = source.whole.at(player.head);
  return (
    <main className="sheet" data-state="replay">
      <h1 className="heard-only">Replay</h1>
      <div className="sheet-left">
        <SheetHead
          stage={now?.stage ?? null}
          state={{
            kind: 'replay',
            word: 'Replay',
            sentence: `${clockWords(player.head, 1)} of ${formatDuration(run.durationS)}${
              now === null ? '' : `: ${STAGE_WORDS[now.stage].toLowerCase()}`
            }. P plays, arrows on the slider step; the live bench goes on beside it.`,
          }}
        />
        <Readouts
          isLive
          volts={sample?.volts ?? null}
          amps={sample?.amps ?? null}
          regulation={sample === null ? null : (REGULATION_CODES[sample.regulation] ?? null)}
          setV={run.setV}
          limitA={run.limitA}
          voltsDecimals={decimals.volts}
          ampsDecimals={decimals.amps}
        />
        <BandContext value={goodBand.shown}>
          <TraceFigure
            source={source}
            report={clipped}
            view={view}
            onView={setView}
            limitA={run.limitA}
            setV={run.setV}
            runningA={null}
            voltsDecimals={decimals.volts}
            ampsDecimals={decimals.amps}
            isLive={false}
          />
          <BandWords state={goodBand} onGo={(toS) => put(toS * TICKS_PER_SECOND)} />
        </BandContext>
        <ReplayBar player={player} lastTick={lastTick}>
          <NoteHere runId={run.id} atS={atS} onReport={setReport} />
        </ReplayBar>
      </div>
      <aside className="sheet-right">
        <ReplayFacts run={run} report={report} onGo={(toS) => put(toS * TICKS_PER_SECOND)}>
          <NameAgain runId={run.id} onReport={setReport} />
          <LikeRuns runId={run.id} />
          <ExportRun runId={run.id} />
        </ReplayFacts>
      </aside>
    </main>
  );
}
