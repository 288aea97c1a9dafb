import type { Finding } from '../finding/finding.ts';
import type { JobWalk } from '../rails/job-walk.ts';
import { mainRailOf } from '../rails/main-rail.ts';
import type { JudgedReading } from '../rails/rail-reading.ts';

const VOLTS = ['present', 'low', 'missing', 'high'];
const OHMS = ['shorted', 'low', 'as-known-good', 'open'];

/**
 * Answers of a walked board for the cause table: volts of its main rail and its core, ohms of its main
 * rail, as judged before the first change of parts.
 */
export function railSights(walk: JobWalk): readonly Finding[] {
  const main = mainRailOf(walk.rails.map(({ rail }) => rail));
  return walk.rails.flatMap((line) => {
    const isMain = line.rail.name === main?.name;
    if (!isMain && !line.rail.isCore) return [];
    const judged = line.verdictBefore === null ? line.now : line.before;
    return judged.flatMap((one) => {
      const { quantity } = one.reading;
      if (quantity === 'volts' && VOLTS.includes(one.verdict)) {
        return [finding(isMain ? 'main-rail' : 'core-rail', line.rail.name, one)];
      }
      return quantity === 'ohms' &&
        isMain &&
        one.reading.against === null &&
        OHMS.includes(one.verdict)
        ? [finding('main-ohms', line.rail.name, one)]
        : [];
    });
  });
}

function finding(
  question: string,
  rail: string,
  { reading, verdict, reason, source }: JudgedReading,
): Finding {
  return {
    key: `${question}:${verdict}`,
    room: 'rails',
    claim: `${rail}: ${reason}`,
    value: reading.value,
    unit: reading.quantity === 'volts' ? 'V' : 'Ω',
    uncertainty: null,
    source,
    likelihoods: {},
    from: [{ kind: 'reading', id: reading.id }],
    at: reading.at,
  };
}
