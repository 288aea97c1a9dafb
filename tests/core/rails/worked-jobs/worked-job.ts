import type { FaultPrior } from '../../../../core/rails/fault.ts';
import { type JobWalk, walkJob } from '../../../../core/rails/job-walk.ts';
import type { RailReading, RailVerdict } from '../../../../core/rails/rail-reading.ts';
import { readRailTable } from '../../../../core/rails/rail-table.ts';
import { parseQuantity } from '../../../../core/units/parse.ts';

/** A job as a technician might work it: what was read, in order, and what it was in the end. */
export interface WorkedJob {
  readonly name: string;
  /** The rail table as typed. */
  readonly board: string;
  /** The state that the board is said to be in; null when nobody named one. */
  readonly state: string | null;
  readonly liquid?: boolean;
  readonly draw?: FaultPrior['draw'];
  /** `MAIN 12.6V`, `MAIN.in 19V`, `CORE.en 0V`, `MAIN 9k1ohm`, `CORE-MAIN 0.1ohm`, `MAIN 0.45diode`;
   * then `@sleep` another state, `unfed`, `2w` two wires, `leads=0.2` known leads. */
  readonly readings: readonly string[];
  /** Keys of the faults that it was; empty = none of these rails. */
  readonly truth: readonly string[];
  /** How many suspects may be named before all of the truth has been; one more than faults if not said. */
  readonly within?: number;
  /** How sure it has to be that there are two faults; 0.3 if not said. */
  readonly double?: number;
  readonly verdicts: Readonly<Record<string, RailVerdict>>;
  /** After so many readings at least one of these is proposed. */
  readonly proposes?: readonly (readonly [number, ...string[]])[];
  /** What has to be said of readings that do not go together. */
  readonly told?: readonly RegExp[];
}

/** The job's rails after its first `count` readings. */
export function walkWorkedJob(job: WorkedJob, count = job.readings.length): JobWalk {
  const { board } = readRailTable(job.board, 'Invented board');
  const readings = job.readings.slice(0, count).map((text, at) => readingOf(text, job.state, at));
  const isPowered = readings.at(-1)?.powered ?? false;
  return walkJob({
    board,
    readings,
    changedAt: [],
    state: job.state,
    liquid: job.liquid ?? false,
    drawBefore: null,
    drawNow: job.draw ?? null,
    cannotReach: [],
    isPowered,
    adviceFor: () => null,
    at: readings.length,
  });
}

const SHAPE = /^(\w+?)(?:\.(in|en))?(?:-(\w+))?\s+(\S+?)(V|ohm|diode)((?:\s+\S+)*)$/;
const HALF_A_MINUTE_MS = 30_000;

function readingOf(text: string, state: string | null, at: number): RailReading {
  const [, rail = '', role, against, typed = '', unit = '', rest = ''] = SHAPE.exec(text) ?? [];
  const flags = rest.trim().split(/\s+/);
  const parsed = parseQuantity(typed, unit === 'ohm' ? 'Ω' : 'V');
  if (rail === '' || !parsed.ok) throw new Error(`a reading of this corpus is mistyped: ${text}`);
  const isVolts = unit === 'V';
  const elsewhere = flags.find((flag) => flag.startsWith('@'))?.slice(1);
  const leads = flags.find((flag) => flag.startsWith('leads='))?.slice(6);
  return {
    id: `reading ${at + 1}`,
    rail,
    point: role === 'in' ? 'input' : role === 'en' ? 'enable' : 'output',
    quantity: isVolts ? 'volts' : unit === 'ohm' ? 'ohms' : 'diode',
    against: against ?? null,
    value: parsed.value,
    overload: parsed.overload,
    state: isVolts ? (elsewhere ?? state) : null,
    powered: isVolts && !flags.includes('unfed'),
    wires: flags.includes('2w') || leads !== undefined ? 2 : 4,
    leadOhm: leads === undefined ? null : Number(leads),
    accuracy: { percent: 0.5, offset: 0.002 },
    at: at * HALF_A_MINUTE_MS,
  };
}
