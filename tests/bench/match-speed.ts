import { type CurveSignature, curveSignature } from '../../core/match/curve-signature.ts';
import { readyQuery, signatureDistance } from '../../core/match/signature-distance.ts';
import { createSignatureIndex } from '../../core/match/signature-index.ts';
import { inventedRun, inventedStairs, randomSource } from '../core/match/invented-runs.ts';
import { type Measure, measure, median } from './measure.ts';

/** Boards of a model for each of which a ledger of so many runs has some dozens of runs. */
const RUNS_A_BOARD = 40;
const SIZES = [1_000, 10_000, 100_000] as const;
const QUERIES = 40;
const WANTED = 5;
const random = randomSource(4_071_995);

const twist = () => ({
  stretch: 0.85 + 0.3 * random(),
  addedA: random() < 0.3 ? 0.01 * random() : 0,
  volts: random() < 0.3 ? 19 : 12,
  lateS: 2 * random(),
  seconds: 20,
  noise: () => random() - 0.5,
});

function ledgerOf(size: number) {
  const boards = Array.from({ length: size / RUNS_A_BOARD }, () => inventedStairs(random));
  const runs: CurveSignature[] = [];
  for (let i = 0; i < size; i += 1) {
    runs.push(curveSignature(inventedRun(boards[i % boards.length]!, twist()), 'input')!);
  }
  const queries = Array.from({ length: QUERIES }, (_, i) => {
    const board = boards[(i * 13) % boards.length]!;
    return curveSignature(inventedRun(board, twist()), 'input')!;
  });
  return { runs, queries };
}

/** The nearest by the same warping distance without a limit: every run, every cell of its band. */
function exhaustive(runs: readonly CurveSignature[], query: CurveSignature): readonly number[] {
  const ready = readyQuery(query);
  const found: { i: number; distance: number }[] = [];
  runs.forEach((run, i) => {
    found.push({ i, distance: signatureDistance(ready, run) });
  });
  return found
    .sort((a, b) => a.distance - b.distance)
    .slice(0, WANTED)
    .map(({ distance }) => distance);
}

/** Milliseconds to the five nearest, recall of the exhaustive answer, and how both grow. */
export async function measureMatch(): Promise<readonly Measure[]> {
  const found: Measure[] = [];
  const times: number[] = [];
  for (const size of SIZES) {
    const { runs, queries } = ledgerOf(size);
    const index = createSignatureIndex();
    const builtMs = performance.now();
    runs.forEach((run, i) => {
      index.add(String(i), run);
    });
    const buildMs = performance.now() - builtMs;
    const ours: number[] = [];
    const theirs: number[] = [];
    let compared = 0;
    let hits = 0;
    let asked = 0;
    index.nearest(queries[0]!, WANTED);
    for (const query of queries) {
      const startMs = performance.now();
      const near = index.nearest(query, WANTED);
      ours.push(performance.now() - startMs);
      compared += index.compared;
      // A hundred thousand of them take seconds: some are enough there.
      if (theirs.length >= (size > 50_000 ? 3 : 15)) continue;
      const slowMs = performance.now();
      const every = exhaustive(runs, query);
      theirs.push(performance.now() - slowMs);
      asked += every.length;
      // By distance: of runs that are as near as each other either is right.
      const limit = every[every.length - 1]! + 1e-9;
      hits += near.filter(({ distance }) => distance <= limit).length;
    }
    const runsWords = `${size.toLocaleString('en')} runs`;
    ours.sort((a, b) => a - b);
    const p95 = ours[Math.floor(ours.length * 0.95)]!;
    times.push(median(ours));
    const aim = size === 10_000 ? 'under 50' : 'grows slower than the ledger';
    found.push(
      measure(`five nearest among ${runsWords}, median`, median(ours), 'ms', aim, {
        name: 'exhaustive warping',
        value: median(theirs),
      }),
      measure(`five nearest among ${runsWords}, p95`, p95, 'ms', aim),
      measure(`recall among ${runsWords}`, hits / asked, 'share', '0.95 of the exhaustive answer'),
      measure(
        `share of ${runsWords} compared`,
        compared / queries.length / size,
        'share',
        'small, and smaller as the ledger grows',
      ),
      measure(`index of ${runsWords} built`, buildMs, 'ms', 'once a start'),
    );
  }
  found.push(
    measure(
      'search time, ten times the runs (1,000 to 10,000)',
      times[1]! / times[0]!,
      'times',
      'under 10',
    ),
    measure(
      'search time, ten times the runs (10,000 to 100,000)',
      times[2]! / times[1]!,
      'times',
      'under 10',
    ),
  );
  return found;
}
