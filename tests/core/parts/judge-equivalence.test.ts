import { describe, expect, it } from 'vitest';
import type { DonorPart, OriginalPart, PartPlace } from '../../../core/parts/equivalence.ts';
import { equivalenceFinding } from '../../../core/parts/equivalence-finding.ts';
import { judgeEquivalence } from '../../../core/parts/judge-equivalence.ts';
import { parsePart } from '../../../core/parts/parse-part.ts';
import { shareAt } from '../../../core/parts/rules-value.ts';

// No published worked example of part equivalence exists: these hold this project's own rules, which
// are common practice, no source, unless a line names one.

const original = (text: string, more: Partial<OriginalPart> = {}): OriginalPart => ({
  spec: parsePart(text).spec,
  biasCurve: null,
  pinout: null,
  pairedByFirmware: null,
  ...more,
});
const donor = (text: string, more: Partial<DonorPart> = {}): DonorPart => ({
  spec: parsePart(text).spec,
  knownFrom: 'label',
  measured: null,
  biasCurve: null,
  heightMm: null,
  pinout: null,
  ...more,
});
const place = (more: Partial<PartPlace> = {}): PartPlace => ({
  railV: null,
  role: 'decoupling',
  critical: false,
  roomMm: null,
  ...more,
});
const judge = (a: OriginalPart | string, b: DonorPart | string, at: Partial<PartPlace> = {}) => {
  const from = typeof a === 'string' ? original(a) : a;
  return judgeEquivalence(from, typeof b === 'string' ? donor(b) : b, place(at));
};
const ruleOf = (equivalence: ReturnType<typeof judge>, rule: string) =>
  equivalence.rules.find((each) => each.rule === rule);

const X5R = '10u 25V 20% X5R 1206';

describe('judgeEquivalence on ceramics', () => {
  it('calls the same part from labelled stock an equal', () => {
    expect(judge(X5R, X5R, { railV: 12 }).verdict).toBe('equal');
  });

  it('calls a tighter, higher rated, steadier one an equal', () => {
    expect(judge(X5R, '10u 35V 10% X7R 1206', { railV: 12 }).verdict).toBe('equal');
  });

  it.each([
    ['4.7u 25V 20% X5R 1206', 'value'],
    ['10u 16V 20% X5R 1206', 'rating'],
    ['10u 25V 20% Y5V 1206', 'class'],
    ['10u 25V 20% X5R 1210', 'case'],
  ])('refuses %s by its %s', (text, rule) => {
    const found = judge(X5R, text);
    expect(found.verdict).toBe('not-equal');
    expect(found.rules.filter(({ verdict }) => verdict === 'fail').map((r) => r.rule)).toEqual([
      rule,
    ]);
    expect(found.summary).toContain(ruleOf(found, rule)?.reason ?? '?');
  });

  it('never calls an unmarked ceramic equal, however well the typed figures agree', () => {
    const found = judge(original(X5R), donor(X5R, { knownFrom: 'unknown' }));
    expect(found.verdict).toBe('not-ruled-out');
    expect(ruleOf(found, 'identity')?.verdict).toBe('not-checked');
    expect(found.notChecked).toContain('what the donor part is');
  });

  it('calls it equal once it comes from the same place on the same board', () => {
    const found = judge(original(X5R), donor(X5R, { knownFrom: 'same-place' }));
    expect(found.verdict).toBe('equal');
  });

  it('measured and with typed rating and class it may be equal, measured alone it is not', () => {
    const measured = { value: 9.4e-6, uncertainty: 0.05e-6 };
    const known = donor(X5R, { knownFrom: 'unknown', measured });
    expect(judge(original(X5R), known).verdict).toBe('equal');
    const bare = donor('ceramic 1206', { knownFrom: 'unknown', measured });
    const found = judge(original(X5R), bare);
    expect(found.verdict).toBe('not-ruled-out');
    expect(found.notChecked).toEqual(expect.arrayContaining(['rating', 'ceramic class']));
  });

  it('fails a measured value outside the band and questions one at its edge', () => {
    const at = (value: number, uncertainty = 0.05e-6) =>
      ruleOf(judge(original(X5R), donor(X5R, { measured: { value, uncertainty } })), 'value')
        ?.verdict;
    expect(at(10.5e-6)).toBe('pass');
    expect(at(8.05e-6)).toBe('question');
    expect(at(7e-6)).toBe('fail');
  });

  it('asks about a measured part that left its own tighter tolerance', () => {
    const tight = donor('10u 25V 5% X7R 1206', {
      measured: { value: 8.8e-6, uncertainty: 0.01e-6 },
    });
    expect(ruleOf(judge(original(X5R), tight), 'value')?.verdict).toBe('question');
  });

  it('uses a curve under DC bias where one is given', () => {
    const curve = [
      { volts: 0, share: 1 },
      { volts: 10, share: 0.6 },
      { volts: 20, share: 0.3 },
    ];
    expect(shareAt(curve, 5)).toBeCloseTo(0.8, 12);
    expect(shareAt(curve, 15)).toBeCloseTo(0.45, 12);
    expect(shareAt(curve, 30)).toBe(0.3);
    const both = judge(original(X5R, { biasCurve: curve }), donor(X5R, { biasCurve: curve }), {
      railV: 12,
    });
    expect(ruleOf(both, 'bias')?.verdict).toBe('pass');
    const steep = [
      { volts: 0, share: 1 },
      { volts: 12, share: 0.2 },
    ];
    const worse = judge(original(X5R, { biasCurve: curve }), donor(X5R, { biasCurve: steep }), {
      railV: 12,
    });
    expect(worse.verdict).toBe('not-equal');
    expect(ruleOf(worse, 'bias')?.reason).toMatch(/At 12 V the donor keeps 2\sµF/);
  });

  it('names DC bias as not checked where no curve is given', () => {
    expect(judge(X5R, X5R, { railV: 12 }).notChecked).toContain('capacitance under DC bias');
  });
});

describe('judgeEquivalence on bulk capacitors', () => {
  const bulk = '62u 16V 20% 23m ESR polymer 7343';

  it('passes a near ESR, fails a high one, and asks about one that is too low', () => {
    const esr = (milliohms: number) =>
      judge(bulk, `62u 16V 20% ${milliohms}m ESR polymer 7343`, { role: 'bulk' });
    expect(esr(25).verdict).toBe('equal');
    expect(esr(60).verdict).toBe('not-equal');
    expect(esr(8).verdict).toBe('not-ruled-out');
    expect(ruleOf(esr(8), 'esr')?.reason).toMatch(/upset a regulator/);
  });

  it('leaves an unknown ESR open: it counts in a polymer', () => {
    const found = judge(bulk, '62u 16V 20% polymer 7343', { role: 'bulk' });
    expect(found.verdict).toBe('not-ruled-out');
    expect(found.notChecked).toContain('ESR');
  });

  it('asks about a ceramic in a polymer place and refuses a wet aluminium one', () => {
    expect(ruleOf(judge(bulk, '62u 16V ceramic 1210'), 'kind')?.verdict).toBe('question');
    expect(ruleOf(judge(bulk, '62u 16V aluminium'), 'kind')?.verdict).toBe('fail');
  });
});

describe('judgeEquivalence on other parts', () => {
  it('lets only the exact fuse through: more amps protect less', () => {
    expect(judge('fuse 3A 32V 0603in', 'fuse 5A 32V 0603in').verdict).toBe('not-equal');
    expect(judge('fuse 3A 32V 0603in', 'fuse 3A 63V 0603in').verdict).toBe('equal');
  });

  it('judges a resistor by role: a looser part may do as a pull-up and never in feedback', () => {
    const feedback = judge('10k 1% 0402in', '10k 5% 0402in', { role: 'feedback' });
    expect(feedback.verdict).toBe('not-equal');
    const pullUp = judge('10k 1% 0402in', '10k 5% 0402in', { role: 'other' });
    expect(pullUp.verdict).toBe('not-ruled-out');
  });

  it('lets a measured looser resistor through inside the tight band', () => {
    const measured = donor('10k 5% 0402in', { measured: { value: 10_020, uncertainty: 10 } });
    expect(judge(original('10k 1% 0402in'), measured, { role: 'feedback' }).verdict).toBe('equal');
  });

  it('takes a 10 k 1 % part for a 10 k 5 % one (bands by IEC 60062)', () => {
    expect(judge('10k 5% 0402in', '10k 1% 0402in').verdict).toBe('equal');
  });

  it('stops at another kind at once', () => {
    const found = judge('10u 25V', '10k');
    expect(found.verdict).toBe('not-equal');
    expect(found.rules).toHaveLength(1);
  });

  it('refuses a chip that firmware pairs with its board, and asks where nobody knows', () => {
    const chip = (pairedByFirmware: boolean | null) =>
      judge(original('U7 ABC1234 QFN-32', { pairedByFirmware }), donor('U9 ABC1234 QFN-32'));
    expect(chip(true).verdict).toBe('not-equal');
    expect(chip(false).verdict).toBe('equal');
    expect(chip(null).verdict).toBe('not-ruled-out');
  });

  it('fails other pins and asks about another type with the same pins', () => {
    const pins = (pinout: string, type: string) =>
      judge(
        original('Q3 AB12 SOT-23', { pinout: 'G S D' }),
        donor(`Q9 ${type} SOT-23`, { pinout }),
      );
    expect(ruleOf(pins('S G D', 'CD34'), 'pinout')?.verdict).toBe('fail');
    expect(ruleOf(pins('G S D', 'CD34'), 'pinout')?.verdict).toBe('question');
    expect(ruleOf(pins('G S D', 'AB12'), 'pinout')?.verdict).toBe('pass');
  });

  it('holds critical parts like for like', () => {
    const critical = { critical: true };
    expect(judge(X5R, X5R, critical).verdict).toBe('equal');
    const film = judge('100n 50V film 1206', '100n 50V X7R 1206', critical);
    expect(ruleOf(film, 'critical')?.verdict).toBe('fail');
    expect(judge(X5R, '10.5u 25V 10% X5R 1206', critical).verdict).toBe('not-equal');
  });

  it('names height and what no rule looks at as not checked', () => {
    const { notChecked } = judge(X5R, X5R);
    expect(notChecked).toEqual(expect.arrayContaining(['height', 'ripple current']));
  });

  it('fails a part that is higher than the room above it', () => {
    const tall = donor(X5R, { heightMm: 2.5 });
    expect(judge(original(X5R), tall, { roomMm: 1.8 }).verdict).toBe('not-equal');
  });
});

describe('equivalenceFinding', () => {
  it('carries the verdict with what was not checked', () => {
    const finding = equivalenceFinding('C12', judge(X5R, X5R), [{ kind: 'part', id: 'p' }], 5);
    expect(finding).toMatchObject({ key: 'part:C12:equal', room: 'parts', at: 5 });
    expect(finding.claim).toMatch(/Not checked: .*height/);
  });
});
