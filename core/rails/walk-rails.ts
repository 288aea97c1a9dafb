import { type Contradiction, findContradictions } from './contradictions.ts';
import { type FaultPosterior, faultPosterior } from './fault-posterior.ts';
import { isJoinLikely, type NextOptions, scoreMeasurements } from './next-measurements.ts';
import { oddsOf } from './observations.ts';
import { type Proposal, propose } from './propose.ts';
import type { RailModel } from './rail-model.ts';
import type { JudgedReading } from './rail-reading.ts';
import { listSuspects, type Suspect } from './suspects.ts';

/** Where a rail walk stands. */
export interface RailWalk {
  /** Most probable first; faults that show the same everywhere are one suspect. */
  readonly suspects: readonly Suspect[];
  /** Probability that no rail of the table is at fault. */
  readonly elsewhere: number;
  /** Probability that more than one fault is needed to explain the readings. */
  readonly double: number;
  /** The three measurements that tell most for their effort; fewer when fewer tell anything. */
  readonly next: readonly Proposal[];
  readonly contradictions: readonly Contradiction[];
  /** True when one suspect stands alone, or nothing within reach tells more. */
  readonly isSettled: boolean;
  /** One sentence of where it stands. */
  readonly summary: string;
}

/** A suspect this probable stands alone. */
const STANDS_ALONE = 0.9;
const PROPOSALS = 3;
/** Less than this is chance, not information. */
const LEAST_GAIN_BITS = 0.01;
/** A measurement that tells less than this share of the best one's is not proposed beside it. */
const WORTH_SAYING = 0.12;

/**
 * From the readings since the last change of the board and the tree: how probable each fault is,
 * what contradicts, and what to measure next. Any order of readings works and nothing insists.
 */
export function walkRails(
  model: RailModel,
  judged: readonly JudgedReading[],
  options: NextOptions,
): RailWalk {
  const posterior = faultPosterior(model, judged);
  const suspects = listSuspects(model, posterior);
  const scored = scoreMeasurements(model, posterior, options);
  const isRisky = isJoinLikely(model, posterior);
  const most = scored[0]?.score ?? 0;
  const next = scored
    .filter(({ score, gainBits }) => score >= most * WORTH_SAYING && gainBits >= LEAST_GAIN_BITS)
    .slice(0, PROPOSALS)
    .map((each) => propose(model, each, suspects, isRisky));
  const first = suspects[0];
  const standsAlone = first !== undefined && first.probability >= STANDS_ALONE;
  const { elsewhere, double } = posterior;
  const isSettled = standsAlone || elsewhere >= STANDS_ALONE || next.length === 0;
  return {
    suspects,
    elsewhere,
    double,
    next,
    contradictions: findContradictions(model, posterior, judged),
    isSettled,
    summary:
      sayNothingOdd(model, posterior, judged) ??
      summarise(suspects, elsewhere, double, next.length),
  };
}

/** A healthy board gives such a reading less often than this. */
const ODD_BELOW = 0.1;

/** Until something is out of place there are no suspects to speak of: only what nobody looked at. */
function sayNothingOdd(
  model: RailModel,
  { observations, elsewhere }: FaultPosterior,
  judged: readonly JudgedReading[],
): string | null {
  const fed = judged.filter(
    ({ verdict, reading }) => verdict === 'back-fed' && reading.point === 'output',
  );
  const isOdd = observations.some(
    ({ measurement, verdict, odds }) =>
      oddsOf(odds, model.healthy[measurement] ?? 0, verdict) < ODD_BELOW,
  );
  const rails = new Set(fed.map(({ reading }) => reading.rail));
  if (
    rails.size > 0 &&
    !observations.some(({ judged: { isOdd: odd, verdict } }) => odd && verdict !== 'back-fed')
  ) {
    const names = [...rails].join(' and ');
    return `${names} ${rails.size === 1 ? 'is' : 'are'} fed from elsewhere, or still charged: find out from where before anything else.`;
  }
  if (isOdd || observations.length === 0 || elsewhere > 0.5) return null;
  const looked = new Set(observations.map(({ judged: { reading } }) => reading.rail)).size;
  const state = model.state === null ? '' : ` in ${model.state}`;
  return `Nothing that was read is out of place${state}: ${looked} of ${model.board.rails.length} rails were looked at.`;
}

function summarise(
  suspects: readonly Suspect[],
  elsewhere: number,
  double: number,
  proposals: number,
): string {
  const [first, second] = suspects;
  const percent = (p: number) => `${Math.round(p * 100)} %`;
  if (elsewhere > 0.5) {
    return `Nothing here speaks against a rail (${percent(elsewhere)}): look beyond the rails of the table.`;
  }
  if (first === undefined) return 'No suspect stands out.';
  const two = double > 0.5 && second !== undefined;
  if (two) {
    return `Two faults, most likely ${first.text} (${percent(first.probability)}) and ${second.text} (${percent(second.probability)}).`;
  }
  if (first.probability >= STANDS_ALONE) {
    return `Most likely ${first.text} (${percent(first.probability)}).`;
  }
  const lead = `${suspects.length} suspects are left, first ${first.text} (${percent(first.probability)})`;
  return proposals === 0 ? `${lead}; nothing within reach tells them apart.` : `${lead}.`;
}
