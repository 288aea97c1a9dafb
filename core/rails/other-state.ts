import { isUpIn, statesOf } from './board-model.ts';
import type { Contradiction } from './contradictions.ts';
import type { RailModel } from './rail-model.ts';
import type { JudgedReading } from './rail-reading.ts';

/** So many rails have to be explained before another state is thought of. */
const LEAST_EXPLAINED = 2;

/**
 * A state of the board in which everything that reads missing belongs off and everything that is
 * there belongs there: the board may well be in that one and not in the one that was named.
 */
export function findOtherState(
  { board, state }: RailModel,
  judged: readonly JudgedReading[],
): readonly Contradiction[] {
  const volts = judged.filter(
    ({ reading }) => reading.quantity === 'volts' && reading.point === 'output' && reading.powered,
  );
  const railOf = ({ reading }: JudgedReading) =>
    board.rails.find(({ name }) => name === reading.rail);
  const missing = volts.filter(({ verdict, isOdd }) => verdict === 'missing' && isOdd);
  const there = volts.filter(({ verdict }) => verdict === 'present');
  const names = new Set(missing.map(({ reading }) => reading.rail));
  if (names.size < LEAST_EXPLAINED || there.length === 0) return [];
  const fits = statesOf(board).filter((name) => {
    if (name.toLowerCase() === state?.toLowerCase()) return false;
    const isUp = (each: JudgedReading) => {
      const rail = railOf(each);
      return rail !== undefined && isUpIn(rail, name);
    };
    return missing.every((each) => !isUp(each)) && there.every(isUp);
  });
  const [first] = fits;
  if (first === undefined) return [];
  const said = state === null ? 'no state was named' : `it is said to be in ${state}`;
  return [
    {
      text: `Everything that reads missing (${[...names].join(', ')}) belongs off in ${fits.join(' or ')}, and ${said}: is the board in ${first}? Then pick that state and ask why it does not leave it.`,
      readings: missing.map(({ reading }) => reading.id),
    },
  ];
}
