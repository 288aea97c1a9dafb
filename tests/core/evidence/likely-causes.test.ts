import { describe, expect, it } from 'vitest';
import { type CauseTable, checkCauseTable } from '../../../core/evidence/cause-table.ts';
import { likelyCauses } from '../../../core/evidence/likely-causes.ts';
import { type PastCase, proofOf, sightOf } from '../../../core/evidence/past-case.ts';
import { STARTER_TABLE } from '../../../core/evidence/starter-table.ts';
import { ANY_OTHER_CAUSE, type Finding } from '../../../core/finding/finding.ts';

// Cases from descriptions of the trade (common practice, no source).

const finding = (key: string, at = 0, more: Partial<Finding> = {}): Finding => ({
  key,
  room: 'job',
  claim: key,
  value: null,
  unit: '',
  uncertainty: null,
  source: 'test',
  likelihoods: {},
  from: [],
  at,
  ...more,
});
const causes = (
  keys: readonly string[],
  past: readonly PastCase[] = [],
  model: string | null = null,
) =>
  likelyCauses(
    STARTER_TABLE,
    past,
    keys.map((key, at) => finding(key, at)),
    model,
  );
const chance = (found: ReturnType<typeof causes>, key: string) =>
  found.causes.find(({ cause }) => cause.key === key)?.probability ?? 0;

let serial = 0;
const past = (
  cause: string | null,
  keys: readonly string[],
  more: Partial<PastCase> = {},
): PastCase => ({
  jobId: `j${serial++}`,
  boardModel: 'Invented Board 1',
  cause,
  proof: cause === null ? 'unsolved' : 'proved',
  sights: keys.map(sightOf),
  closedAt: serial,
  ...more,
});
const times = (count: number, make: () => PastCase) => Array.from({ length: count }, make);
const BENCH_RIGHT = [
  'limit:enough',
  'board-volts:as-set',
  'wake:asked',
  'feed:as-stated',
  'polarity:right',
];

describe('likelyCauses never judges by one number', () => {
  it('does not call the processor dead for a flat draw, and the reading of the main rail overturns it', () => {
    const flat = causes(['draw:stalled']);
    expect(flat.standing).not.toBe('strong');
    expect(flat.summary).toMatch(/One number has several causes/);
    // A shop in which stalled boards were mostly processors: the habit verdict.
    const habit = times(12, () => past('logic:processor', ['draw:stalled', 'main-rail:present']));
    const lean = causes(['draw:stalled'], habit, 'Invented Board 1');
    expect(lean.causes[0]?.cause.key).toBe('logic:processor');
    expect(lean.standing).not.toBe('strong');
    const read = causes(
      ['draw:stalled', 'main-rail:low', 'main-ohms:shorted', ...BENCH_RIGHT],
      habit,
      'Invented Board 1',
    );
    expect(read.causes[0]?.cause.key).toBe('short:main');
    expect(chance(read, 'logic:processor')).toBeLessThan(0.1);
  });

  it('is never strong on one answer, however usual its cause', () => {
    const sure = times(60, () => past('power:input-open', ['draw:no-draw', 'wake:asked']));
    expect(causes(['draw:no-draw'], sure, 'Invented Board 1').standing).toBe('leaning');
  });
});

describe('likelyCauses puts the bench first', () => {
  it.each([
    ['a limit that is too low makes it restart', ['draw:cycling', 'limit:too-low'], 'bench:limit'],
    [
      'volts are lost in the leads',
      ['draw:cycling', 'board-volts:dropped', 'limit:enough'],
      'bench:leads',
    ],
    [
      'the leads are reversed',
      ['draw:limited', 'board-volts:about-a-diode', 'polarity:reversed'],
      'bench:reversed',
    ],
    ['nobody asked it to wake', ['draw:flat-low', 'wake:not-asked'], 'bench:not-asked'],
    ['it is fed the wrong volts', ['draw:no-draw', 'feed:other', 'wake:asked'], 'bench:feed'],
  ])('when %s', (_, keys, cause) => {
    const found = causes(keys);
    expect(found.causes[0]?.cause.key).toBe(cause);
    expect(found.causes[0]?.probability).toBeGreaterThan(0.5);
  });

  it('asks about the bench before it is strong on any fault of the board', () => {
    const open = causes(['draw:limited', 'main-ohms:shorted', 'heat:capacitor']);
    expect(open.benchFirst.length === 0 || open.standing !== 'strong').toBe(true);
    const found = causes(['draw:limited', 'main-rail:low']);
    expect(found.summary).toMatch(/^The bench first/);
    expect(found.next[0]?.isBench).toBe(true);
  });

  it('drops a fault of the bench that was looked at', () => {
    const found = causes(['draw:stalled', 'main-rail:low', ...BENCH_RIGHT]);
    expect(found.benchFirst).toEqual([]);
  });
});

describe('likelyCauses counts proved cases only', () => {
  const sights = ['draw:stalled', 'main-rail:low'];
  const ledger = [
    ...times(7, () => past('short:main', sights)),
    ...times(2, () => past('power:converter', sights)),
    ...times(4, () => past(null, sights)),
    ...times(3, () => past('logic:processor', sights, { proof: 'guessed' })),
  ];

  it('says 7 of 9, its interval, and what was never solved or only guessed', () => {
    const found = causes(sights, ledger, 'Invented Board 1');
    const like = found.causes.find(({ cause }) => cause.key === 'short:main')?.like;
    expect(like).toMatchObject({ proved: 9, withCause: 7, unsolved: 4, guessed: 3 });
    expect(like?.text).toBe(
      '7 of 9 earlier boards that stalled here with the main rail low had a shorted capacitor on the main rail (45 % to 94 %); 4 more were never solved, 3 were only guessed.',
    );
    expect(found.summary).toContain(like?.text ?? '?');
  });

  it('moves nothing for guessed and unsolved jobs', () => {
    const without = ledger.filter(({ proof }) => proof === 'proved');
    for (const { cause, probability } of causes(sights, without, 'Invented Board 1').causes) {
      expect(chance(causes(sights, ledger, 'Invented Board 1'), cause.key)).toBeCloseTo(
        probability,
        12,
      );
    }
  });

  it('weighs cases of this board model above those of others', () => {
    const own = causes(
      sights,
      times(9, () => past('power:converter', sights)),
      'Invented Board 1',
    );
    const other = causes(
      sights,
      times(9, () => past('power:converter', sights)),
      'Invented Board 2',
    );
    expect(chance(own, 'power:converter')).toBeGreaterThan(chance(other, 'power:converter'));
    expect(chance(other, 'power:converter')).toBeGreaterThan(
      chance(causes(sights), 'power:converter'),
    );
  });

  it('knows a cause that the shop added and the table does not list', () => {
    const found = causes(
      sights,
      times(8, () => past('short:main/C71', sights)),
      'Invented Board 1',
    );
    expect(found.causes[0]?.cause.key).toBe('short:main/C71');
  });

  it('says that it leans on the starter table while there are few cases, and stops saying so', () => {
    expect(causes(sights)).toMatchObject({ basis: 'starter' });
    expect(causes(sights).summary).toMatch(
      /leans on the starter table \(common practice, no source\)/,
    );
    const many = times(40, () => past('short:main', sights));
    expect(causes(sights, many, 'Invented Board 1')).toMatchObject({ basis: 'ledger' });
  });

  it('draws its interval closer as cases come in', () => {
    const width = (count: number) => {
      const [first] = causes(
        sights,
        times(count, () => past('short:main', sights)),
        'Invented Board 1',
      ).causes;
      return (first?.interval.high ?? 1) - (first?.interval.low ?? 0);
    };
    expect(width(40)).toBeLessThan(width(4));
    expect(width(4)).toBeLessThan(width(0));
  });
});

describe('likelyCauses and what to look at next', () => {
  it('proposes the reading that would move it most: ohms of a main rail that is low', () => {
    const found = causes(['draw:stalled', 'main-rail:low', ...BENCH_RIGHT]);
    expect(found.next[0]).toMatchObject({ question: 'main-ohms', isBench: false });
  });

  it('takes the latest answer to a question', () => {
    const before = causes(['main-rail:present', 'draw:stalled', 'main-rail:low']);
    const after = causes(['draw:stalled', 'main-rail:low']);
    expect(chance(before, 'short:main')).toBeCloseTo(chance(after, 'short:main'), 12);
  });

  it('takes the likelihoods that a finding brings where the table has no such question', () => {
    const own = finding('gradient:MAIN:nearest', 9, {
      likelihoods: { 'short:main': 0.9, [ANY_OTHER_CAUSE]: 0.05 },
    });
    const before = causes(['draw:stalled']);
    const after = likelyCauses(STARTER_TABLE, [], [finding('draw:stalled'), own], null);
    expect(chance(after, 'short:main')).toBeGreaterThan(2 * chance(before, 'short:main'));
  });

  it('gives probabilities that sum to 1 and intervals that hold them', () => {
    const found = causes(['draw:cycling', 'liquid:seen']);
    expect(found.causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
    for (const { probability, interval } of found.causes) {
      expect(interval.low).toBeLessThanOrEqual(probability + 0.12);
      expect(interval.high).toBeGreaterThanOrEqual(probability);
    }
  });
});

describe('proofOf', () => {
  it('takes all three for proved: changed, the reading came back, the board woke', () => {
    const all = { changed: true, readingCameBack: true, boardWoke: true };
    expect(proofOf('short:main', all)).toBe('proved');
    for (const key of Object.keys(all)) {
      expect(proofOf('short:main', { ...all, [key]: false })).toBe('guessed');
    }
    expect(proofOf(null, all)).toBe('unsolved');
  });
});

describe('checkCauseTable', () => {
  const [first, second] = STARTER_TABLE.causes;
  const changed = (more: Partial<CauseTable>) => () =>
    checkCauseTable({ ...STARTER_TABLE, ...more });

  it('finds the starter table sound', () => {
    expect(checkCauseTable(STARTER_TABLE)).toBe(STARTER_TABLE);
  });

  it('refuses what a person may type wrong, and names it', () => {
    if (first === undefined || second === undefined) throw new TypeError('no causes');
    expect(changed({ causes: [first, first] })).toThrow(/there twice \(causes, bench\)/);
    expect(changed({ causes: [{ ...first, weight: 0 }] })).toThrow(/not above 0/);
    expect(changed({ causes: [{ ...first, parent: 'nowhere' }] })).toThrow(/under nowhere/);
    expect(changed({ causes: [{ ...first, parent: first.key }] })).toThrow(/under itself/);
    const question = { key: 'q', text: 'q', outcomes: ['a'], effort: 1, trust: 1 };
    const asking = (odds: Record<string, Record<string, number>>) =>
      changed({ questions: [{ ...question, odds }] });
    expect(asking({ x: { b: 0.5 } })).toThrow(/b is no outcome of it \(causes, q, x\)/);
    expect(asking({ x: { a: 1.5 } })).toThrow(/1.5 is no probability/);
  });
});
