import type { Step } from '../stages/stage.ts';

/** A step of the first run beside one of another; null where it has no such step. */
export interface StepPair {
  readonly first: Step | null;
  readonly run: Step | null;
  /** Number of the step in its own run, from 0. */
  readonly firstAt: number;
  readonly runAt: number;
}

/** What leaving a step without a partner costs, in octaves of level. */
const ALONE = 1;
const SMALL = 0.01;

/**
 * Pairs the steps of two runs in order, so that the sum of differences in level before and after
 * (in octaves) and of steps left alone is least (edit distance, Wagner and Fischer 1974). `scale`
 * turns amps into what is compared: watts where the feed volts differ. Time plays no part: a slower
 * boot has the same steps.
 */
export function matchSteps(
  first: readonly Step[],
  run: readonly Step[],
  scale: { readonly first: number; readonly run: number },
): readonly StepPair[] {
  const small = SMALL * Math.max(scale.first, scale.run);
  const octaves = (amps: number, by: number) => Math.log2(1 + Math.max(0, amps * by) / small);
  const cost = (a: Step, b: Step) => {
    if (Math.sign(a.toA - a.fromA) !== Math.sign(b.toA - b.fromA)) return 2 * ALONE + 1;
    const from = octaves(a.fromA, scale.first) - octaves(b.fromA, scale.run);
    const to = octaves(a.toA, scale.first) - octaves(b.toA, scale.run);
    return (Math.abs(from) + Math.abs(to)) / 2;
  };
  const best: number[][] = [];
  for (let i = 0; i <= first.length; i += 1) {
    const row: number[] = [];
    for (let j = 0; j <= run.length; j += 1) {
      if (i === 0 || j === 0) row.push((i + j) * ALONE);
      else {
        const paired = best[i - 1]![j - 1]! + cost(first[i - 1]!, run[j - 1]!);
        row.push(Math.min(paired, best[i - 1]![j]! + ALONE, row[j - 1]! + ALONE));
      }
    }
    best.push(row);
  }
  const pairs: StepPair[] = [];
  let [i, j] = [first.length, run.length];
  while (i > 0 || j > 0) {
    const here = best[i]![j]!;
    if (i > 0 && j > 0 && here === best[i - 1]![j - 1]! + cost(first[i - 1]!, run[j - 1]!)) {
      i -= 1;
      j -= 1;
      pairs.push({ first: first[i]!, run: run[j]!, firstAt: i, runAt: j });
    } else if (i > 0 && here === best[i - 1]![j]! + ALONE) {
      i -= 1;
      pairs.push({ first: first[i]!, run: null, firstAt: i, runAt: -1 });
    } else {
      j -= 1;
      pairs.push({ first: null, run: run[j]!, firstAt: -1, runAt: j });
    }
  }
  return pairs.reverse();
}
