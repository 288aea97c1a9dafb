import { ANY_OTHER_CAUSE, type Finding } from '../finding/finding.ts';
import { observationsOf, oddsOf } from './observations.ts';
import type { RailModel } from './rail-model.ts';
import { type JudgedReading, type RailReading, sayVerdict } from './rail-reading.ts';
import type { RailWalk } from './walk-rails.ts';

const UNIT = { volts: 'V', ohms: 'Ω', diode: 'V' } as const;
/** Likelihoods this near to a healthy board's say nothing and are left out. */
const SAME = 0.02;

/**
 * Each judged reading as a finding, with how likely its verdict is under every fault of the tree
 * where that differs from a healthy board.
 */
export function readingFindings(
  model: RailModel,
  judged: readonly JudgedReading[],
): readonly Finding[] {
  return judged.map((each) => {
    const { reading, verdict, arithmetic, reason, source } = each;
    const likelihoods: Record<string, number> = {};
    const [observation] = observationsOf(model, [each]);
    if (observation !== undefined) {
      const { measurement, verdict: column, odds } = observation;
      const healthy = oddsOf(odds, model.healthy[measurement] ?? 0, column);
      const byFault = new Float64Array(model.faults.length);
      for (const [at, { fault, share }] of model.variants.entries()) {
        const likely = oddsOf(odds, model.conditions[at]?.[measurement] ?? 0, column);
        byFault[fault] = (byFault[fault] ?? 0) + share * likely;
      }
      for (const [fault, { key }] of model.faults.entries()) {
        const likely = byFault[fault] ?? healthy;
        if (Math.abs(likely - healthy) > SAME * healthy) likelihoods[key] = Math.min(1, likely);
      }
      likelihoods[ANY_OTHER_CAUSE] = healthy;
    }
    return {
      key: `rail:${placeOf(reading)}:${reading.quantity}:${verdict}`,
      room: 'rails',
      claim: `${reading.against === null ? placeOf(reading) : reading.rail} ${lowerFirst(sayVerdict(verdict, { isOdd: true, against: reading.against }))}: ${arithmetic === '' ? '' : `${arithmetic}. `}${reason}`,
      value: reading.value,
      unit: UNIT[reading.quantity],
      uncertainty: null,
      source,
      likelihoods,
      from: [{ kind: 'reading', id: reading.id }],
      at: reading.at,
    };
  });
}

/** Where the walk stands as a finding: its first suspect with its probability. */
export function walkFinding(walk: RailWalk, readings: readonly RailReading[], at: number): Finding {
  const first = walk.suspects[0];
  return {
    key: `walk:${first?.faults[0]?.key ?? 'none'}`,
    room: 'rails',
    claim: walk.summary,
    value: first?.probability ?? walk.elsewhere,
    unit: '',
    uncertainty: null,
    source:
      "Bayes' rule over the rail tree; how often faults show what is common practice, no source",
    likelihoods: {},
    from: readings.map(({ id }) => ({ kind: 'reading', id })),
    at,
  };
}

const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);

function placeOf({ rail, point, against }: RailReading): string {
  if (against !== null) return `${rail} to ${against}`;
  return point === 'output' ? rail : `${point} of ${rail}`;
}
