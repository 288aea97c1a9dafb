import { openBeforeSoak } from '../../core/checklist/gates.ts';
import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { SoakState, soakCalls } from '../../core/contract/soak-calls.ts';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import type { SupplyReading } from '../../core/instruments/supply.ts';
import type { ChecklistItem } from '../../core/job/job.ts';
import { createSoakJudge, type SoakJudge, type SoakVerdict } from '../../core/soak/soak-judge.ts';
import type { StageReport } from '../../core/stages/stage.ts';

export interface SoakParts {
  bench(): BenchState;
  readonly ledger: Pick<
    Handlers<typeof jobCalls>,
    'readJob' | 'doItem' | 'noteItem' | 'reopenItem'
  >;
  /** Puts a note on the run. */
  note(text: string): Promise<unknown> | unknown;
  wallMs(): number;
  tell(state: SoakState): void;
}

/** Watches a run for as long as was asked, and writes the verdict on the checklist. */
export interface BenchSoak {
  readonly handlers: Handlers<typeof soakCalls>;
  see(reading: SupplyReading, midMs: number): void;
  seeStages(runId: string, report: StageReport): void;
  runEnded(runId: string): void;
  /** The app closes: what was watched so far is written down. */
  close(): Promise<void>;
}

const NOTHING: SoakState = {
  isRunning: false,
  criteria: null,
  startedAt: null,
  numbers: null,
  verdict: null,
  trouble: null,
};
const TELL_EVERY_MS = 1000;
const MOST_NOTE = 200;

interface UnderWay {
  readonly judge: SoakJudge;
  readonly runId: string;
  readonly jobId: string | null;
  /** Seconds of the run at the first reading of the soak, once there is one. */
  readonly fromS: number;
  firstMs: number | null;
  newestS: number;
}

/** A soak over flux, residue or a wet board proves nothing and can ruin it. */
function refuseUnclean(items: readonly ChecklistItem[]): void {
  const open = openBeforeSoak(items);
  if (open.length === 0) return;
  throw new WakelineError({
    code: 'gate-closed',
    what: `Not yet: ${open.map(({ title }) => `"${title}"`).join(' and ')} first`,
    where: 'soak',
    todo: 'Do these steps, or skip them with a reason, then start the soak.',
  });
}

/** Makes it, with no soak under way. */
export function createBenchSoak(parts: SoakParts): BenchSoak {
  let state = NOTHING;
  let now: UnderWay | null = null;
  let newestReport: { runId: string; report: StageReport } | null = null;
  let toldMs = Number.NEGATIVE_INFINITY;
  let written: Promise<void> = Promise.resolve();

  function change(part: Partial<SoakState>): SoakState {
    state = { ...state, ...part };
    parts.tell(state);
    return state;
  }

  async function write(jobId: string | null, verdict: SoakVerdict): Promise<void> {
    try {
      await parts.note(verdict.words.slice(0, MOST_NOTE));
    } catch {
      // The run is over: the checklist and the job keep the words.
    }
    if (jobId === null) return;
    const { items } = await parts.ledger.readJob({ id: jobId });
    const steps = items.filter((item) => item.step === 'soaked');
    const step = steps.find((item) => item.state === 'open') ?? steps.at(-1);
    if (step === undefined) return;
    const at = { jobId, itemId: step.id, note: verdict.words };
    await (verdict.passed ? parts.ledger.doItem(at) : parts.ledger.noteItem(at));
  }

  function finish(verdict: SoakVerdict): void {
    const soak = now;
    if (soak === null) return;
    now = null;
    change({ isRunning: false, numbers: verdict.numbers, verdict });
    written = write(soak.jobId, verdict).catch((thrown) => {
      const trouble = troubleOf(thrown, 'soak');
      change({ trouble: `${trouble.what}. ${trouble.todo}` });
    });
  }

  function stop(why: string): void {
    if (now !== null) finish(now.judge.stop(now.newestS, why));
  }

  return {
    handlers: {
      soakState: () => state,
      startSoak: async (criteria) => {
        const { jobId } = parts.bench();
        const items = jobId === null ? [] : (await parts.ledger.readJob({ id: jobId })).items;
        const bench = parts.bench();
        const { run, supply } = bench;
        const isPowered = run !== null && run.kind === 'powered' && run.endedAt === null;
        if (!isPowered || supply.link !== 'live' || supply.outputOn === false) {
          throw new WakelineError({
            code: 'not-connected',
            what: 'No powered run is live, so there is nothing to soak',
            where: 'soak',
            todo: 'Switch the output on and let the board run first.',
          });
        }
        const { lowA, highA } = criteria;
        if (lowA !== null && highA !== null && lowA >= highA) {
          throw new WakelineError({
            code: 'bad-input',
            what: `A draw cannot be at least ${lowA} A and at most ${highA} A`,
            where: 'soak bounds',
            todo: 'Enter the lower bound first.',
          });
        }
        refuseUnclean(items);
        stop('another soak was begun');
        const fromS = newestReport?.runId === run.id ? newestReport.report.durationS : 0;
        now = {
          judge: createSoakJudge(criteria, fromS),
          runId: run.id,
          jobId: bench.jobId,
          fromS,
          firstMs: null,
          newestS: fromS,
        };
        return change({
          isRunning: true,
          criteria,
          startedAt: parts.wallMs(),
          numbers: now.judge.numbers,
          verdict: null,
          trouble: null,
        });
      },
      stopSoak: async () => {
        stop('stopped by hand');
        await written;
        return state;
      },
    },
    see(reading, midMs) {
      if (now === null) return;
      now.firstMs ??= midMs;
      now.newestS = now.fromS + (midMs - now.firstMs) / 1000;
      const { amps, outputOn } = reading;
      const verdict = now.judge.see({ atS: now.newestS, amps, outputOn });
      if (verdict !== null) return finish(verdict);
      if (midMs - toldMs < TELL_EVERY_MS) return;
      toldMs = midMs;
      change({ numbers: now.judge.numbers });
    },
    seeStages(runId, report) {
      newestReport = { runId, report };
      const newest = report.stages.at(-1);
      if (now === null || now.runId !== runId || newest === undefined) return;
      const verdict = now.judge.seeStage(newest);
      if (verdict !== null) finish(verdict);
    },
    runEnded(runId) {
      if (now?.runId === runId) stop('the run ended');
    },
    async close() {
      stop('the app was closed');
      await written;
    },
  };
}
