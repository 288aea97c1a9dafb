import { describe, expect, it } from 'vitest';
import {
  brierScore,
  calibrationBins,
  calibrationGap,
  type Prediction,
} from '../../../core/evidence/calibration.ts';
import { likelyCauses } from '../../../core/evidence/likely-causes.ts';
import type { PastCase, Sight } from '../../../core/evidence/past-case.ts';
import { STARTER_TABLE } from '../../../core/evidence/starter-table.ts';
import type { Finding } from '../../../core/finding/finding.ts';
import { seeded } from '../rails/random-board.ts';

/** Shops that do not exist, whose truth is known: their own causes by board, their own odds of sights. */
interface Shop {
  readonly jobs: readonly { readonly seen: PastCase; readonly truth: string }[];
}

const LEAVES = STARTER_TABLE.causes
  .filter(({ key }) => !STARTER_TABLE.causes.some(({ parent }) => parent === key))
  .map(({ key }) => key);

const LOOKED_UP = ['limit', 'polarity', 'wake', 'feed', 'board-volts', 'main-ohms'];

function simulate(seed: number, count: number): Shop {
  const random = seeded(seed);
  const draw = (weights: readonly number[]) => {
    let left = random() * weights.reduce((sum, w) => sum + w, 0);
    for (const [at, weight] of weights.entries()) {
      left -= weight;
      if (left <= 0) return at;
    }
    return weights.length - 1;
  };
  /** Every weight shaken by up to a factor of three either way: this shop is not the table. */
  const shaken = (weight: number) => weight * 9 ** (random() - 0.5);
  const models = ['Invented A', 'Invented B', 'Invented C'];
  const frequencies = models.map(() => LEAVES.map(() => shaken(1) ** 2));
  const odds = new Map<string, number[]>();
  for (const question of STARTER_TABLE.questions) {
    for (const cause of LEAVES) {
      const row = question.odds[cause] ?? question.odds['*'] ?? {};
      // What is so by definition is shaken less than habits are.
      const spread = LOOKED_UP.includes(question.key) ? 0.4 : 1;
      const weights = question.outcomes.map(
        (outcome) => (0.03 + (row[outcome] ?? 0)) * shaken(1) ** spread,
      );
      odds.set(`${cause} ${question.key}`, weights);
    }
  }
  const jobs = Array.from({ length: count }, (_, at) => {
    const model = Math.floor(random() * models.length);
    const truth = LEAVES[draw(frequencies[model] ?? [])] ?? '';
    const sights: Sight[] = STARTER_TABLE.questions.flatMap(({ key, outcomes }) => {
      if (key !== 'draw' && random() > 0.4) return [];
      const outcome = outcomes[draw(odds.get(`${truth} ${key}`) ?? [])] ?? '';
      return [{ question: key, outcome }];
    });
    const luck = random();
    const proof = luck < 0.7 ? 'proved' : luck < 0.85 ? 'guessed' : 'unsolved';
    // Guesses are wrong half of the time: a ledger that counted them would learn nonsense.
    const guess = random() < 0.5 ? truth : (LEAVES[Math.floor(random() * LEAVES.length)] ?? '');
    const seen: PastCase = {
      jobId: `${seed}-${at}`,
      boardModel: models[model] ?? null,
      cause: proof === 'proved' ? truth : proof === 'guessed' ? guess : null,
      proof,
      sights,
      closedAt: at,
    };
    return { seen, truth };
  });
  return { jobs };
}

const findingOf = ({ question, outcome }: Sight, at: number): Finding => ({
  key: `${question}:${outcome}`,
  room: 'job',
  claim: outcome,
  value: null,
  unit: '',
  uncertainty: null,
  source: 'simulated',
  likelihoods: {},
  from: [],
  at,
});

function predict(shop: Shop, from: number) {
  const [ours, frequency, commonest]: [Prediction[], Prediction[], Prediction[]] = [[], [], []];
  for (const [at, { seen, truth }] of shop.jobs.entries()) {
    if (at < from) continue;
    const earlier = shop.jobs.slice(0, at).map((job) => job.seen);
    const found = likelyCauses(STARTER_TABLE, earlier, seen.sights.map(findingOf), seen.boardModel);
    ours.push({
      probabilities: Object.fromEntries(found.causes.map((c) => [c.cause.key, c.probability])),
      truth,
    });
    const proved = earlier.filter(({ proof }) => proof === 'proved');
    const counts = LEAVES.map((key) => proved.filter(({ cause }) => cause === key).length);
    const shares = counts.map((count) => (count + 1) / (proved.length + LEAVES.length));
    frequency.push({
      probabilities: Object.fromEntries(LEAVES.map((key, i) => [key, shares[i] ?? 0])),
      truth,
    });
    const most = LEAVES[counts.indexOf(Math.max(...counts))] ?? '';
    commonest.push({ probabilities: { [most]: 1 }, truth });
  }
  return { ours, frequency, commonest };
}

describe('likelyCauses on simulated shops, later jobs predicted from earlier ones only', () => {
  const shops = Array.from({ length: 6 }, (_, i) => simulate(i + 1, 220));
  const all = shops.map((shop) => predict(shop, 20));
  const of = (kind: 'ours' | 'frequency' | 'commonest') => all.flatMap((each) => each[kind]);

  it('beats a frequency baseline and "most common cause" in every shop (Brier score)', () => {
    for (const { ours, frequency, commonest } of all) {
      expect(brierScore(ours)).toBeLessThan(brierScore(frequency) * 0.8);
      expect(brierScore(ours)).toBeLessThan(brierScore(commonest) * 0.6);
    }
    console.log(
      `Brier: ours ${brierScore(of('ours')).toFixed(3)}, frequency ${brierScore(of('frequency')).toFixed(3)}, most common ${brierScore(of('commonest')).toFixed(3)}; calibration gap ${calibrationGap(of('ours')).toFixed(3)}`,
    );
  });

  it('means what it says: probabilities come true as often as they claim', () => {
    expect(calibrationGap(of('ours'))).toBeLessThan(0.03);
    for (const { meanP, cameTrue, count } of calibrationBins(of('ours'))) {
      if (count >= 60) expect(Math.abs(meanP - cameTrue)).toBeLessThan(0.12);
    }
  });

  it('learns: it predicts the second half of a shop better than the first', () => {
    const first = all.flatMap(({ ours }) => ours.slice(0, 60));
    const last = all.flatMap(({ ours }) => ours.slice(-60));
    expect(brierScore(last)).toBeLessThan(brierScore(first));
  });
});
