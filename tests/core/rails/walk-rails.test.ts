import { describe, expect, it } from 'vitest';
import { ANY_OTHER_CAUSE, checkFinding } from '../../../core/finding/finding.ts';
import { countAdvised } from '../../../core/rails/count-advised.ts';
import { type FaultPrior, NO_PRIOR } from '../../../core/rails/fault.ts';
import { judgeReadings } from '../../../core/rails/judge-readings.ts';
import { type NextOptions, USUAL_NEXT } from '../../../core/rails/next-measurements.ts';
import { readingFindings, walkFinding } from '../../../core/rails/rail-findings.ts';
import { prepareRails } from '../../../core/rails/rail-model.ts';
import { walkRails } from '../../../core/rails/walk-rails.ts';
import { reading, sampleBoard } from './sample-board.ts';

// Worked jobs on an invented board, from descriptions of the trade (common practice, no source).

function walk(
  texts: readonly string[],
  prior: Partial<FaultPrior> = {},
  options: Partial<NextOptions> = {},
) {
  const model = prepareRails(sampleBoard, 'on', { ...NO_PRIOR, ...prior });
  const judged = judgeReadings(
    sampleBoard,
    texts.map((text) => reading(text)),
  );
  return walkRails(model, judged, { ...USUAL_NEXT, ...options });
}
const first = (found: ReturnType<typeof walk>) => found.suspects[0]?.faults.map(({ key }) => key);
const chance = (found: ReturnType<typeof walk>, key: string) =>
  found.suspects.find(({ faults }) => faults.some((f) => f.key === key))?.probability ?? 0;
const proposed = (found: ReturnType<typeof walk>) => found.next.map((p) => p.measurement.key);

describe('walkRails at the start', () => {
  it('proposes three measurements, each with one sentence of why', () => {
    const found = walk([]);
    expect(found.next).toHaveLength(3);
    for (const { why } of found.next) expect(why).toMatch(/^If .* of \d+ suspects? go.*\.$/);
    expect(found.isSettled).toBe(false);
  });

  it('counts in its sentence the suspects that go', () => {
    const [next] = walk(['MAIN 12.6V', 'AON_3V3 3.3V', 'AON_5V 5V', 'S_5V 0V']).next;
    const [good, bad] = next?.rulesOut ?? [];
    expect(next?.why).toContain(`${good?.gone} of ${next?.suspects}`);
    expect((good?.gone ?? 0) + (bad?.gone ?? 0)).toBeGreaterThan(0);
  });

  it('takes the bench before the board when nothing arrives', () => {
    expect(first(walk(['DC_IN 0V']))).toEqual(['source:DC_IN']);
    expect(walk(['DC_IN 0V']).suspects[0]?.text).toMatch(/bench supply, leads, connector/);
  });

  it('tells a short from a dead input by what the supply shows', () => {
    expect(first(walk(['DC_IN 0.7V'], { draw: 'limited' }))).toEqual(['short:DC_IN']);
    expect(chance(walk(['DC_IN 0V'], { draw: 'none' }), 'source:DC_IN')).toBeGreaterThan(0.85);
  });
});

describe('walkRails on single faults', () => {
  it('asks for ohms of a main rail at a fraction of its volts before anything is blamed', () => {
    const found = walk(['DC_IN 19V', 'MAIN 3.1V']);
    expect(proposed(found)[0]).toBe('ohms:MAIN');
    expect(found.suspects[0]?.probability).toBeLessThan(0.4);
  });

  it('blames a short on the main rail once its ohms are a few', () => {
    const found = walk(['DC_IN 19V', 'MAIN 3.1V', 'MAIN 3.9ohm']);
    expect(first(found)).toEqual(['short:MAIN']);
  });

  it('leaves its converter and shorts behind it when its ohms are healthy', () => {
    const found = walk(['DC_IN 19V', 'MAIN 3.1V', 'MAIN 9.1kohm']);
    expect(chance(found, 'short:MAIN')).toBeLessThan(0.02);
    expect(first(found)).toEqual(['source:MAIN']);
  });

  it('works through a missing core to its converter: enable and input there, ohms as known-good', () => {
    const seen = ['MAIN 12.6V', 'MEM 1.2V', 'IO_1V05 1.05V', 'CORE 0V'];
    expect(
      walk(seen)
        .suspects.slice(0, 4)
        .flatMap(({ faults }) => faults.map((f) => f.key))
        .sort(),
    ).toEqual(['enable:CORE', 'link:CORE:MAIN', 'short:CORE', 'source:CORE']);
    const found = walk([...seen, 'CORE 0.47ohm', 'CORE.en 3.3V', 'CORE.in 12.6V']);
    expect(first(found)).toEqual(['source:CORE']);
    expect(found.isSettled).toBe(true);
  });

  it.each([
    ['CORE.en 0V', 'enable:CORE'],
    ['CORE.in 0V', 'link:CORE:MAIN'],
    ['CORE 0.05ohm', 'short:CORE'],
  ])('goes to another fault of the same rail for %s', (last, key) => {
    const seen = ['MAIN 12.6V', 'MEM 1.2V', 'IO_1V05 1.05V', 'CORE 0V'];
    expect(first(walk([...seen, last]))).toEqual([key]);
  });

  it('looks upstream for a missing enable: the rail that gives it', () => {
    const found = walk([
      'MAIN 12.6V',
      'AON_3V3 3.3V',
      'AON_5V 5V',
      'MEM 0V',
      'MEM.en 0V',
      'S_3V3 0V',
      'S_5V 0V',
    ]);
    expect(first(found)?.[0]).toMatch(/S_5V|LCD_5V/);
    expect(chance(found, 'enable:MEM')).toBeLessThan(0.05);
  });

  it('suspects the core joined to the main rail when the main reads what the core should', () => {
    const found = walk(['MAIN 0.5ohm', 'CORE 0.48ohm'], {}, { isPowered: false });
    expect(first(found)).toEqual(['joined:CORE:MAIN']);
    expect(proposed(found)[0]).toBe('between:CORE:MAIN');
    expect(found.next.every(({ caution }) => caution !== null)).toBe(true);
    const settled = walk(['MAIN 0.5ohm', 'CORE 0.48ohm', 'CORE-MAIN 0.05ohm']);
    expect(chance(settled, 'joined:CORE:MAIN')).toBeGreaterThan(0.95);
  });

  it('never counts the low ohms or the 0.000 of a core without known-good against it', () => {
    const before = chance(walk(['GFX 0V']), 'short:GFX');
    expect(chance(walk(['GFX 0V', 'GFX 0.3ohm', 'GFX 0.000diode']), 'short:GFX')).toBeCloseTo(
      before,
      9,
    );
    expect(proposed(walk(['GFX 0V']))).not.toContain('ohms:GFX');
  });

  it('puts faults together that nothing within reach tells apart', () => {
    const found = walk(['S_5V 0V', 'S_5V 0.4ohm', 'LCD_5V 0V', 'LCD_5V 0.4ohm']);
    // A link joins the two: ohms cannot say on which side the short is.
    expect(first(found)?.slice().sort()).toEqual(['short:LCD_5V', 'short:S_5V']);
  });

  it('looks beyond the rails when all of them are there', () => {
    const all = sampleBoard.rails.map(({ name, nominalV }) => `${name} ${nominalV}V`);
    const found = walk(all);
    expect(found.elsewhere).toBeGreaterThan(0.85);
    expect(found.summary).toMatch(/look beyond the rails/);
  });

  it('comes to the same in any order of readings', () => {
    const seen = ['MAIN 12.6V', 'CORE 0V', 'CORE.en 3.3V', 'MEM 1.2V', 'CORE 0.05ohm'];
    const there = walk(seen);
    const back = walk([...seen].reverse());
    for (const { faults, probability } of there.suspects) {
      expect(chance(back, faults[0]?.key ?? '')).toBeCloseTo(probability, 9);
    }
  });
});

describe('walkRails on two faults', () => {
  const two = [
    'MAIN 12.6V',
    'AON_3V3 3.3V',
    'AON_5V 5V',
    'S_5V 5V',
    'S_3V3 3.3V',
    'IO_1V05 0V',
    'IO_1V05.in 5V',
    'IO_1V05.en 3.3V',
    'IO_1V05 12ohm',
    'MEM 0V',
    'MEM.in 12.6V',
    'MEM.en 3.3V',
    'MEM 0.4ohm',
  ];

  it('names both when two rails fail that nothing joins', () => {
    const found = walk(two);
    expect(found.double).toBeGreaterThan(0.6);
    const leading = found.suspects.slice(0, 2).flatMap(({ faults }) => faults.map((f) => f.key));
    expect(leading.sort()).toEqual(['short:MEM', 'source:IO_1V05']);
    expect(found.summary).toMatch(/^Two faults/);
    expect(walk(two, { liquid: true }).double).toBeGreaterThan(0.9);
    // A slip of the probe does not happen twice: the same reading again settles it.
    expect(walk([...two, 'IO_1V05 0V']).double).toBeGreaterThan(0.9);
  });

  it('thinks of a second fault sooner after liquid', () => {
    const hint = ['MAIN 12.6V', 'S_5V 5V', 'S_3V3 3.3V', 'IO_1V05 0V', 'MEM 0V'];
    expect(walk(hint, { liquid: true }).double).toBeGreaterThan(walk(hint).double);
  });

  it('finds both feeds of one rail gone, which neither alone explains', () => {
    const ored = {
      ...sampleBoard,
      rails: [
        ...sampleBoard.rails,
        { ...sampleBoard.rails[0]!, name: 'BAT', nominalV: 12.6 },
        {
          ...sampleBoard.rails[1]!,
          name: 'EITHER',
          fedBy: ['AON_5V', 'USB_5V'],
          through: 'switch' as const,
          nominalV: 5,
          enabledBy: [],
          points: [],
        },
      ],
    };
    const model = prepareRails(ored, 'on', NO_PRIOR);
    const texts = ['AON_5V 5V', 'USB_5V 0V', 'EITHER 0V', 'EITHER.in 0V'];
    const judged = judgeReadings(
      ored,
      texts.map((text) => reading(text)),
    );
    const keys = walkRails(model, judged, USUAL_NEXT).suspects.flatMap(({ faults }) =>
      faults.map(({ key }) => key),
    );
    expect(keys).toContain('link:EITHER:AON_5V');
  });
});

describe('walkRails on contradictions and limits of reach', () => {
  it('says when a rail is up while what enables it is down', () => {
    const found = walk(['S_5V 0V', 'S_3V3 3.3V']);
    expect(found.contradictions.map(({ text }) => text).join(' ')).toMatch(
      /S_3V3 is present though S_5V, which enables it, is missing/,
    );
  });

  it('says when one point was read in two ways', () => {
    const found = walk(['MEM 1.2V', 'MEM 0V']);
    expect(found.contradictions[0]?.text).toMatch(/MEM was read present and missing/);
  });

  it('says when a reading fits nothing', () => {
    const found = walk(['MAIN 0V', 'AON_3V3 3.3V']);
    expect(
      found.contradictions.some(({ text }) =>
        /AON_3V3: There are volts here while MAIN, which feeds it, has none/.test(text),
      ),
    ).toBe(true);
  });

  it('takes "cannot reach it" for an answer and goes round it', () => {
    const [best] = proposed(walk(['CORE 0V']));
    const found = walk(['CORE 0V'], {}, { cannotReach: new Set([best ?? '']) });
    expect(proposed(found)).not.toContain(best);
    expect(found.next.length).toBeGreaterThan(0);
  });

  it('is settled, and says so, when nothing within reach tells more', () => {
    const everything = new Set(
      prepareRails(sampleBoard, 'on', NO_PRIOR).measurements.map(({ key }) => key),
    );
    const found = walk(['CORE 0V'], {}, { cannotReach: everything });
    expect(found).toMatchObject({ next: [], isSettled: true });
    expect(found.summary).toMatch(/nothing within reach tells them apart/);
  });

  it('leaves readings of another state out and judges none by a rail that sleeps', () => {
    const model = prepareRails(sampleBoard, 'sleep', NO_PRIOR);
    const judged = judgeReadings(sampleBoard, [reading('CORE 0V', { state: 'sleep' })]);
    const found = walkRails(model, judged, USUAL_NEXT);
    expect(chance(found, 'source:CORE')).toBeLessThan(0.1);
    const other = judgeReadings(sampleBoard, [reading('MAIN 0V', { state: 'on' })]);
    expect(chance(walkRails(model, other, USUAL_NEXT), 'source:MAIN')).toBeLessThan(0.1);
  });
});

describe('what the shop has proved before', () => {
  it('shifts the odds by its factors', () => {
    const plain = chance(walk(['CORE 0V']), 'short:CORE');
    const often = walk(['CORE 0V'], { factors: { 'short:CORE': 5 } });
    expect(chance(often, 'short:CORE')).toBeGreaterThan(plain * 2);
  });
});

describe('countAdvised', () => {
  it('counts the measurements that the advice would have taken, and finds the fault', () => {
    const model = prepareRails(sampleBoard, 'on', NO_PRIOR);
    for (const key of ['short:MEM', 'source:CORE', 'enable:S_5V', 'source:DC_IN']) {
      const advised = countAdvised(model, [key]);
      expect(advised.isFound, key).toBe(true);
      expect(advised.keys.length).toBeLessThanOrEqual(10);
    }
  });
});

describe('findings of a walk', () => {
  it('carries how likely a reading is under each fault', () => {
    const model = prepareRails(sampleBoard, 'on', NO_PRIOR);
    const judged = judgeReadings(sampleBoard, [reading('MAIN 0V'), reading('GFX 0.3ohm')]);
    const [missing, mute] = readingFindings(model, judged).map(checkFinding);
    expect(missing?.key).toBe('rail:MAIN:volts:missing');
    expect(missing?.likelihoods['source:MAIN']).toBeGreaterThan(0.7);
    expect(missing?.likelihoods[ANY_OTHER_CAUSE]).toBeLessThan(0.01);
    expect(mute?.likelihoods).toEqual({});
    const found = walkRails(model, judged, USUAL_NEXT);
    expect(
      walkFinding(
        found,
        judged.map((j) => j.reading),
        9,
      ).claim,
    ).toBe(found.summary);
  });
});
