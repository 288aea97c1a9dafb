import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { StageReport } from '../../core/stages/stage.ts';
import { classifyTrace } from '../../core/stages/tracker.ts';
import { describedCorpus } from '../support/described-boards.ts';
import { type CorpusDraw, drawnCorpus } from '../support/drawn-corpus.ts';
import { Dice } from '../support/drawn-draws.ts';
import { pretendCorpus } from '../support/pretend-corpus.ts';
import { StageScore } from '../support/stage-score.ts';
import { type Measure, measure } from './measure.ts';

/**
 * Seeds that thresholds were looked at with, and a third kept apart from them: the last figure of
 * each corpus is of draws that nothing was ever tuned on.
 */
const PRETEND = { from: 0, seeds: 230 };
const PRETEND_APART = { from: 50_000, seeds: 115 };
const DRAWN_APART = { from: 70_000, seeds: 4 };

interface Corpus {
  readonly name: string;
  readonly draws: (volts: boolean) => Iterable<CorpusDraw & { readonly seen?: boolean }>;
}

const CORPORA: readonly Corpus[] = [
  { name: 'pretend bench', draws: (volts) => pretendCorpus(PRETEND.from, PRETEND.seeds, volts) },
  {
    name: 'pretend bench, kept apart',
    draws: (volts) => pretendCorpus(PRETEND_APART.from, PRETEND_APART.seeds, volts),
  },
  {
    name: 'drawn, kept apart',
    draws: (volts) => drawnCorpus(DRAWN_APART.from, DRAWN_APART.seeds, volts),
  },
  {
    name: 'drawn untidily, kept apart',
    draws: (volts) => drawnCorpus(DRAWN_APART.from, DRAWN_APART.seeds, volts, '', true),
  },
  {
    name: 'described afresh, kept apart',
    draws: (volts) => describedCorpus(DRAWN_APART.from, DRAWN_APART.seeds, volts),
  },
];

/** What is told of the board and the feed: the aim is stated apart for each. */
const TOLD = [
  { words: 'running level known', level: true, volts: true },
  { words: 'running level known, no volts', level: true, volts: false },
  { words: 'running level not known', level: false, volts: true },
] as const;

/**
 * How right the stages are: the macro F1 of every corpus with and without a running level and volts,
 * against the same answers set beside the labels of another draw (what guessing by habit would
 * give); borders; and, into `folder`, the confusion matrices and the reliability of the confidence.
 */
export async function measureAccuracy(folder: string | null): Promise<readonly Measure[]> {
  const found: Measure[] = [];
  const pages: string[] = [];
  for (const { name, draws } of CORPORA) {
    for (const { words, level, volts } of TOLD) {
      const score = new StageScore(!volts);
      const shuffled = new StageScore(!volts);
      const answers: { one: CorpusDraw; report: StageReport }[] = [];
      let unseen = 0;
      for (const one of draws(volts)) {
        if (one.seen === false) {
          unseen += 1;
          continue;
        }
        const settings = level ? one.settings : { ...one.settings, runningA: null };
        const report = classifyTrace(one.draw.columns, settings);
        score.add(one.draw, report, 1 / one.hz);
        score.addSureness(one.draw, report);
        answers.push({ one, report });
      }
      const runs = answers.length;
      const dice = new Dice(runs);
      for (const { one, report } of answers) {
        const other = answers[dice.whole(0, runs - 1)]!;
        shuffled.add(other.one.draw, report, 1 / one.hz);
      }
      const aim = level && volts ? 'at least 0.98' : 'stated apart';
      const control = {
        name: 'the same answers beside another draw’s labels',
        value: shuffled.macroF1(),
      };
      found.push(
        measure(
          `stages of ${runs.toLocaleString('en')} runs (${name}), ${words}, macro F1`,
          score.macroF1(),
          'share',
          aim,
          control,
        ),
      );
      if (level && volts) {
        const near = score.near / score.boundaries;
        found.push(
          measure(`borders within 0.2 s or two readings (${name})`, near, 'share', 'at least 0.95'),
        );
      }
      pages.push(
        `${name}, ${words}: ${runs} runs, ${unseen} more whose log cannot show what happens\n\n${score.matrix()}\n\nshare right by confidence: ${score.reliability()}\n`,
      );
    }
  }
  if (folder !== null) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(path.join(folder, 'stage-confusions.txt'), `${pages.join('\n\n')}\n`);
  }
  return found;
}
