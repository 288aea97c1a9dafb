import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import type { ChecklistItem } from '../../core/job/job.ts';
import type { Stage, StageReport } from '../../core/stages/stage.ts';
import { STAGE_WORDS } from '../../core/stages/stage.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { nextForStage } from './next-for-stage.ts';

export type SheetKind =
  | 'starting'
  | 'empty'
  | 'connecting'
  | 'waiting'
  | 'live'
  | 'limited'
  | 'lost'
  | 'replay'
  | 'finished'
  | 'error';

/** What the sheet is, in a word, and one sentence that says what to do next. */
export interface SheetState {
  readonly kind: SheetKind;
  readonly word: string;
  readonly sentence: string;
}

export interface SheetFacts {
  readonly bench: BenchState | null;
  readonly items: readonly ChecklistItem[] | null;
  readonly statedInputV: number | null;
  readonly newest: Stage | null;
  readonly finished: { readonly report: StageReport } | null;
  readonly trouble: Trouble | null;
}

/** Below this a supply's set-point feeds nothing. */
const LEAST_FEED_V = 0.1;

/** Picks the sheet's state. Trouble comes first, then a lost supply, then what the output does. */
export function sheetState(facts: SheetFacts): SheetState {
  const { bench, trouble } = facts;
  if (bench === null) {
    return trouble === null
      ? { kind: 'starting', word: 'Starting', sentence: 'The bench is being opened.' }
      : { kind: 'error', word: 'Stopped', sentence: `${trouble.what}. ${trouble.todo}` };
  }
  if (bench.supply.link === 'lost') return lost(bench);
  if (trouble !== null && isStorageTrouble(trouble)) {
    return { kind: 'error', word: 'Not stored', sentence: `${trouble.what}. ${trouble.todo}` };
  }
  if (bench.supply.link === 'none') return empty(bench);
  if (bench.supply.link === 'connecting') {
    return {
      kind: 'connecting',
      word: 'Connecting',
      sentence: 'The supply is being asked who it is.',
    };
  }
  if (bench.run?.kind === 'injection' && bench.run.endedAt === null) {
    return {
      kind: 'waiting',
      word: 'Injecting',
      sentence:
        'Current is put in to find a short (F5). Leave that before the board is powered: volts and limit come back.',
    };
  }
  if (bench.supply.outputOn === true) return live(bench, facts.newest);
  if (facts.finished !== null) return finished(facts.finished.report);
  return waiting(bench, facts);
}

function lost(bench: BenchState): SheetState {
  const todo = bench.supply.trouble?.todo ?? 'Check the cable.';
  return {
    kind: 'lost',
    word: 'Supply lost',
    sentence: `Its output may still be on: switch it off by hand. ${todo}`,
  };
}

function empty(bench: BenchState): SheetState {
  const sentence =
    bench.jobId === null
      ? 'Nothing is on the bench. Connect a supply, then take in a job.'
      : 'The job is open, but no supply is connected. Connect one to power the board.';
  return { kind: 'empty', word: 'Empty', sentence };
}

function waiting(bench: BenchState, facts: SheetFacts): SheetState {
  const say = (sentence: string): SheetState => ({ kind: 'waiting', word: 'Output off', sentence });
  if (bench.jobId === null) {
    return say(
      'Take in a job (J), or switch on: what is measured is kept and can be given to a job.',
    );
  }
  const gates = (facts.items ?? []).filter((item) => item.beforePower && item.state === 'open');
  const first = gates[0];
  if (first !== undefined) {
    const count = gates.length === 1 ? 'One step comes' : `${gates.length} steps come`;
    return say(`${count} before power, the first: ${lowerFirst(first.title)}.`);
  }
  if (!bench.watcherReady) {
    return say(
      'The watcher that switches off if this window dies is not ready yet. Wait a moment.',
    );
  }
  const { setV, limitA, voltsDecimals, ampsDecimals } = bench.supply;
  const volts = formatQuantity(setV, 'V', voltsDecimals, { prefix: 0 });
  const amps = formatQuantity(limitA, 'A', ampsDecimals, { prefix: 0 });
  const stated = facts.statedInputV;
  if (setV !== null && setV < LEAST_FEED_V) {
    return say(
      stated === null
        ? 'Set the volts (V) that the board states, and a low limit (L).'
        : `Set the volts (V): this board states ${formatQuantity(stated, 'V', null, { prefix: 0 })}.`,
    );
  }
  return say(`Check ${volts} and the ${amps} limit, then O and Enter switch it on.`);
}

function live(bench: BenchState, newest: Stage | null): SheetState {
  const isLimited = newest?.stage === 'limited' || bench.supply.regulation === 'cc';
  const stage = isLimited ? 'limited' : (newest?.stage ?? 'off');
  return {
    kind: isLimited ? 'limited' : 'live',
    word: isLimited || newest !== null ? STAGE_WORDS[stage] : 'Output on',
    sentence: nextForStage(stage, newest?.periodS ?? null),
  };
}

function finished(report: StageReport): SheetState {
  const reach = STAGE_WORDS[report.reach.stage].toLowerCase();
  const held = formatQuantity(report.reach.heldA, 'A', null, { digits: 3 });
  return {
    kind: 'finished',
    word: 'Run ended',
    sentence: `${formatDuration(report.durationS)}, reached ${reach}, held ${held}. Say whether it was before or after repair, or switch on again.`,
  };
}

function isStorageTrouble(trouble: Trouble): boolean {
  return trouble.code.startsWith('ledger') || trouble.code === 'disk-full';
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
