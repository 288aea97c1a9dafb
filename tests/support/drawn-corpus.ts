import { type TrackerSettings, UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { MAKERS } from './drawn-boards.ts';
import { Dice, type DrawnDraw, logDraw } from './drawn-draws.ts';
import { roughenDraw } from './roughen-draw.ts';

/** One labelled draw of the corpus, and how it was logged. */
export interface CorpusDraw {
  readonly maker: string;
  readonly seed: number;
  readonly hz: number;
  /** Noise as a multiple of a usual instrument's, and resolution in amps. */
  readonly noise: number;
  readonly countA: number;
  readonly draw: DrawnDraw;
  readonly settings: TrackerSettings;
}

export const CORPUS_RATES = [1, 5, 20, 100, 1000];

/**
 * Every described draw for each seed at each rate, with noise x1, x3 or x10, 1 or 10 mA of
 * resolution or none, losses, and the supply's word on its regulation in a third of them. What
 * happens within two readings is left out: nobody could see it. So is a change of feed without
 * volts. `rough` draws them less tidily (`roughen-draw.ts`).
 */
export function* drawnCorpus(
  from: number,
  seeds: number,
  volts: boolean,
  only = '',
  rough = false,
): Generator<CorpusDraw> {
  for (const [maker, make] of Object.entries(MAKERS)) {
    if (!maker.includes(only) || (!volts && maker.includes('feed'))) continue;
    for (let seed = from; seed < from + seeds; seed++) {
      for (const hz of CORPUS_RATES) {
        const dice = new Dice(seed * 1000 + hz + maker.length * 7919);
        const board = make(dice);
        if (board.stretches.some((x) => (x.finest ?? 99) * hz < 2)) continue;
        const noise = dice.pick([1, 3, 10]);
        const drawnCount = dice.pick([0.001, 0.001, 0.01, 0]);
        const countA = (board.settings.runningA ?? 1) > 0.2 ? drawnCount : 0.001;
        const logging = {
          hz,
          countA,
          noiseA: noise * dice.between(0.0003, 0.0008),
          zeroA: dice.between(-0.00015, 0.002),
          jitter: dice.between(0, 0.3),
          dropouts: dice.pick([0, 0, 0.02]),
          gaps: [],
          volts,
          regulation: volts && dice.next() < 0.3,
        };
        const stretches = rough ? roughenDraw(board.stretches, dice) : board.stretches;
        const draw = logDraw(stretches, logging, dice);
        const settings = { ...UNKNOWN_BOARD, ...board.settings };
        yield { maker, seed, hz, noise, countA, draw, settings };
      }
    }
  }
}
