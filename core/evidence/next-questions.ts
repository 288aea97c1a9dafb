import { informationGainBits } from '../finding/information.ts';
import type { CauseOdds } from './cause-odds.ts';
import type { CauseTable } from './cause-table.ts';
import type { OpenBenchCheck } from './likely-causes.ts';
import type { Sight } from './past-case.ts';

/** Something to look at next, with what it is expected to tell. */
export interface NextQuestion {
  readonly question: string;
  readonly text: string;
  readonly gainBits: number;
  readonly effort: number;
  /** True when it rules a fault of the bench in or out. */
  readonly isBench: boolean;
}

const LEAST_BITS = 0.02;
const MOST = 3;

/** Open questions by expected information for effort, those about the bench before the others. */
export function nextQuestions(
  table: CauseTable,
  odds: CauseOdds,
  posterior: readonly number[],
  sights: readonly Sight[],
  benchFirst: readonly OpenBenchCheck[],
): readonly NextQuestion[] {
  const scored = table.questions.flatMap(({ key, text, outcomes, effort }) => {
    if (sights.some(({ question }) => question === key)) return [];
    const joint = outcomes.map((outcome) =>
      odds.causes.map(
        (cause, at) => (posterior[at] ?? 0) * odds.likelihood({ question: key, outcome }, cause),
      ),
    );
    const gainBits = informationGainBits(joint);
    const isBench = benchFirst.some(({ question }) => question === key);
    return gainBits < LEAST_BITS && !isBench
      ? []
      : [{ question: key, text, gainBits, effort, isBench }];
  });
  const order = (a: NextQuestion, b: NextQuestion) =>
    Number(b.isBench) - Number(a.isBench) || b.gainBits / b.effort - a.gainBits / a.effort;
  return scored.sort(order).slice(0, MOST);
}
