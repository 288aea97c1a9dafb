/**
 * Prints how the stage tracker names drawn draws: a confusion matrix, the reliability of its
 * confidence, and the worst draws, with the running level known and not, with volts and without.
 *
 *   node tests/support/score-stages.ts [SEEDS] [PART OF A MAKER'S NAME] [FIRST SEED] [show] [rough|described]
 */
import { classifyTrace } from '../../core/stages/tracker.ts';
import { describedCorpus } from './described-boards.ts';
import { type CorpusDraw, drawnCorpus } from './drawn-corpus.ts';
import { StageScore } from './stage-score.ts';

const seeds = Number(process.argv[2] ?? 4);
const only = process.argv[3] ?? '';
const first = Number(process.argv[4] ?? 0);
const show = process.argv.includes('show');
const rough = process.argv.includes('rough');
const described = process.argv.includes('described');

function showDraw(c: CorpusDraw, report: ReturnType<typeof classifyTrace>): void {
  const where = `${c.maker}, ${c.hz} Hz, seed ${c.seed}, noise x${c.noise}, count ${c.countA}`;
  console.log(`--- ${where}, R ${c.settings.runningA?.toFixed(3)}`);
  const spanOf = (s: { startS: number; endS: number }) =>
    `${s.startS.toFixed(2)}-${s.endS.toFixed(2)}`;
  console.log(c.draw.labels.map((l) => `${l.stage} ${spanOf(l)}`).join(' | '));
  for (const s of report.stages) {
    console.log(`   ${s.stage} ${spanOf(s)} ${s.confidence} ${s.reason}`);
  }
}

for (const [known, volts] of [
  [true, true],
  [true, false],
  [false, true],
] as const) {
  const score = new StageScore(!volts);
  const shares = new Map<string, number[]>();
  console.log(
    `\nrunning level ${known ? 'known' : 'not known'}, ${volts ? 'with' : 'without'} volts`,
  );
  const corpus = described
    ? describedCorpus(first, seeds, volts, only)
    : drawnCorpus(first, seeds, volts, only, rough);
  for (const c of corpus) {
    const settings = known ? c.settings : { ...c.settings, runningA: null };
    const report = classifyTrace(c.draw.columns, settings);
    const right = score.add(c.draw, report, 1 / c.hz);
    score.addSureness(c.draw, report);
    shares.set(c.maker, [...(shares.get(c.maker) ?? []), right]);
    if (show && right < 0.93) showDraw(c, report);
  }
  console.log(score.matrix());
  console.log(`share right by confidence: ${score.reliability()}`);
  const near = ((100 * score.near) / score.boundaries).toFixed(1);
  console.log(
    `macro F1 ${score.macroF1().toFixed(4)}; ${near} % of ${score.boundaries} borders within 0.2 s or two samples`,
  );
  for (const [maker, all] of shares) {
    const mean = all.reduce((a, b) => a + b, 0) / all.length;
    if (mean < 0.985) console.log(`  ${mean.toFixed(3)} ${maker}`);
  }
}
