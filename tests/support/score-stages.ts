/** Prints the confusion of the stage tracker on drawn draws: `node tests/support/score-stages.ts [seeds] [maker]`. */
import { UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { classifyTrace } from '../../core/stages/tracker.ts';
import { MAKERS } from './drawn-boards.ts';
import { Dice, logDraw } from './drawn-draws.ts';
import { StageScore } from './stage-score.ts';

const seeds = Number(process.argv[2] ?? 4);
const first = Number(process.argv[4] ?? 0);
const only = process.argv[3] ?? '';
const RATES = [1, 5, 20, 100, 1000];
const show = process.argv[5] ?? '';

for (const [known, volts] of [
  [true, true],
  [true, false],
  [false, true],
] as const) {
  const score = new StageScore(!volts);
  const by = new Map<string, { right: number; n: number; worst: string }>();
  const rate = new Map<string, [number, number]>();
  for (const [name, make] of Object.entries(MAKERS)) {
    if (!name.includes(only)) continue;
    // Without volts nobody can tell a change of feed from a change of draw.
    if (!volts && name.includes('feed')) continue;
    for (let seed = first; seed < first + seeds; seed++) {
      for (const hz of RATES) {
        const dice = new Dice(seed * 1000 + hz + name.length * 7919);
        const board = make(dice);
        // What happens faster than two readings cannot be seen by anybody.
        if (board.stretches.some((x) => (x.finest ?? 99) * hz < 2)) continue;
        const noise = dice.pick([1, 3, 10]);
        const countA = dice.pick([0.001, 0.001, 0.01, 0]);
        const top = board.settings.runningA ?? 1;
        const draw = logDraw(
          board.stretches,
          {
            hz,
            countA: top > 0.2 ? countA : 0.001,
            noiseA: noise * dice.between(0.0003, 0.0008),
            zeroA: dice.between(-0.00015, 0.002),
            jitter: dice.between(0, 0.3),
            dropouts: dice.pick([0, 0, 0.02]),
            gaps: [],
            volts,
            regulation: volts && dice.next() < 0.3,
          },
          dice,
        );
        const settings = { ...UNKNOWN_BOARD, ...board.settings };
        if (!known) settings.runningA = null;
        const report = classifyTrace(draw.columns, settings);
        const near = [score.near, score.boundaries];
        const right = score.add(draw, report, 1 / hz);
        score.addSureness(draw, report);
        if (show !== '' && show.includes(`${hz}Hz`) && right < 0.93) {
          console.log(
            `--- ${name} ${hz} Hz seed ${seed} x${noise} ${countA}`,
            JSON.stringify(board.settings),
          );
          console.log(
            draw.labels
              .map((l) => `${l.stage} ${l.startS.toFixed(2)}-${l.endS.toFixed(2)}`)
              .join(' | '),
          );
          for (const s of report.stages)
            console.log(
              `   ${s.stage} ${s.startS.toFixed(2)}-${s.endS.toFixed(2)} ${s.confidence} ${s.reason}`,
            );
        }
        const row = by.get(name) ?? { right: 0, n: 0, worst: '' };
        row.right += right;
        row.n++;
        if (right < 0.9) row.worst += ` ${hz}Hz/s${seed}/x${noise}/${countA}(${right.toFixed(2)})`;
        by.set(name, row);
        const r = rate.get(`${hz}`) ?? [0, 0];
        r[0] += score.near - near[0]!;
        r[1] += score.boundaries - near[1]!;
        rate.set(`${hz}`, r);
      }
    }
  }
  console.log(
    `\nrunning level ${known ? 'known' : 'not known'}, ${volts ? 'with' : 'without'} volts`,
  );
  console.log(score.matrix());
  console.log(`confidence: share right: ${score.reliability()}`);
  console.log(
    `macro F1 ${score.macroF1().toFixed(4)}; boundaries within 0.2 s or two samples ${((100 * score.near) / score.boundaries).toFixed(1)} % of ${score.boundaries}`,
    [...rate].map(([k, [a, b]]) => `${k}Hz ${((100 * a) / b).toFixed(1)}`).join(' '),
  );
  for (const [name, row] of by) {
    const share = row.right / row.n;
    if (share < 0.985) console.log(`  ${share.toFixed(3)} ${name}:${row.worst.slice(0, 300)}`);
  }
}
