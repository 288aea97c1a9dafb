import type { Prediction } from '../../core/evidence/calibration.ts';
import { likelyCauses } from '../../core/evidence/likely-causes.ts';
import type { PastCase, Sight } from '../../core/evidence/past-case.ts';
import { STARTER_TABLE } from '../../core/evidence/starter-table.ts';
import type { Finding } from '../../core/finding/finding.ts';
import { seeded } from '../core/rails/random-board.ts';

/** Shops that do not exist, whose truth is known: their own causes by board, their own odds of sights. */
export interface Shop {
  readonly jobs: readonly { readonly seen: PastCase; readonly truth: string }[];
}

const LEAVES = STARTER_TABLE.causes
  .filter(({ key }) => !STARTER_TABLE.causes.some(({ parent }) => parent === key))
  .map(({ key }) => key);

const LOOKED_UP = ['limit', 'polarity', 'wake', 'feed', 'board-volts', 'main-ohms'];

/** A shop of `count` closed jobs, its own frequencies and odds drawn from the seed. */
export function simulateShop(seed: number, count: number): Shop {
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

/** Each job from `from` on predicted from the ones before it: by us, by frequency, by the commonest cause. */
export function predictShop(shop: Shop, from: number) {
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
