import { regulationOfRegister } from './regulation.ts';
import type { RegulationTold } from './supply-dialect.ts';
import { REGISTER_CODINGS } from './supply-dialects.ts';

/** Finds out which register tells regulation, and in which coding, from cases that leave no doubt. */
export interface RegulationLearner {
  /**
   * Takes one clear case with what the registers said in it, by their query. Returns how regulation
   * is told once that is certain: a register with its coding, or `inferred` when none fits.
   */
  witness(clear: 'cv' | 'cc', registers: ReadonlyMap<string, number>): RegulationTold | null;
}

/** Agreeing cases before a coding counts as known. */
const WITNESSES = 2;

export function regulationLearner(asks: readonly string[]): RegulationLearner {
  let candidates = REGISTER_CODINGS.filter(({ ask }) => asks.includes(ask)).flatMap(
    ({ ask, codings }) => codings.map((coding) => ({ ask, coding })),
  );
  let seen = 0;
  return {
    witness(clear, registers) {
      candidates = candidates.filter(({ ask, coding }) => {
        const register = registers.get(ask);
        return register !== undefined && regulationOfRegister(register, coding, true) === clear;
      });
      seen += 1;
      const [first] = candidates;
      if (first === undefined) return { by: 'inferred' };
      return seen < WITNESSES ? null : { by: 'register', ...first };
    },
  };
}
