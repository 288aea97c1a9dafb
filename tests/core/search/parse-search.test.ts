import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseSearch } from '../../../core/search/parse-search.ts';
import type { SearchTerm } from '../../../core/search/search-query.ts';

const TODAY = '2026-11-25';

function termsOf(search: string): readonly SearchTerm[] {
  const parsed = parseSearch(search, TODAY);
  if (!parsed.ok) throw new Error(`${parsed.what} at ${parsed.at} of ${search}`);
  return parsed.terms;
}
function wrongOf(search: string) {
  const parsed = parseSearch(search, TODAY);
  if (parsed.ok) throw new Error(`${search} was taken`);
  return parsed;
}

describe('a typed search', () => {
  it('reads a stage with its amps and a rail with its verdict', () => {
    expect(termsOf('stalled 0.2..0.3 A main rail low')).toMatchObject([
      {
        kind: 'stage',
        stage: 'stalled',
        amps: { low: 0.2, high: 0.3, isOpen: false },
        from: 0,
        to: 18,
      },
      { kind: 'rail', name: ['main'], verdict: 'low', range: null, from: 19, to: 32 },
    ]);
  });

  it('reads ranges however they are typed', () => {
    for (const typed of [
      'stalled 200..300mA',
      'stalled 0.2A..0.3A',
      'stalled 0.2-0.3 A',
      'stalled at 0,2..0,3 amps',
      'STALLED 0.2 ..0.3 A'.replace(' ..', '..'),
      'stalled 0.2.. 0.3 A',
      'stalled 0.2…0.3 A',
    ]) {
      const [term] = termsOf(typed);
      expect(term, typed).toMatchObject({ kind: 'stage', stage: 'stalled' });
      if (term?.kind !== 'stage') continue;
      expect(term.amps?.low, typed).toBeCloseTo(0.2, 12);
      expect(term.amps?.high, typed).toBeCloseTo(0.3, 12);
    }
  });

  it('reads comparisons, and about as a tenth either way', () => {
    expect(termsOf('>5 V')).toMatchObject([
      { kind: 'amount', unit: 'V', range: { low: 5, high: null, isOpen: true } },
    ]);
    expect(termsOf('<= 0.5 ohm')).toMatchObject([
      { kind: 'amount', unit: 'Ω', range: { low: null, high: 0.5, isOpen: false } },
    ]);
    const [about] = termsOf('stalled 0.26 A 19 V');
    expect(about).toMatchObject({ kind: 'stage' });
    if (about?.kind !== 'stage') return;
    expect(about.amps?.low).toBeCloseTo(0.234, 9);
    expect(about.amps?.high).toBeCloseTo(0.286, 9);
    expect(about.volts?.low).toBeCloseTo(17.1, 9);
  });

  it('takes the rail before or after the word, in one word or in quotes', () => {
    expect(termsOf('rail 3V3 missing')).toMatchObject([
      { kind: 'rail', name: ['3v3'], verdict: 'missing' },
    ]);
    expect(termsOf('"P5V standby" rail shorted')).toMatchObject([
      { kind: 'rail', name: ['p5v', 'standby'], verdict: 'shorted' },
    ]);
    expect(termsOf('rail low')).toMatchObject([{ kind: 'rail', name: [], verdict: 'low' }]);
    expect(termsOf('main rail 2..3 V')).toMatchObject([
      { kind: 'rail', name: ['main'], range: { unit: 'V', range: { low: 2, high: 3 } } },
    ]);
    expect(termsOf('main rail').map(({ kind }) => kind)).toEqual(['text', 'text']);
  });

  it('reads days, months, and spans of them', () => {
    const days = (typed: string) => {
      const [term] = termsOf(typed);
      return term?.kind === 'days' ? [term.first, term.last] : term;
    };
    expect(days('2026-11')).toEqual(['2026-11-01', '2026-11-30']);
    expect(days('2024-02')).toEqual(['2024-02-01', '2024-02-29']);
    expect(days('2026-10..2026-11-05')).toEqual(['2026-10-01', '2026-11-05']);
    expect(days('since 2026-10')).toEqual(['2026-10-01', null]);
    expect(days('before 2026-10')).toEqual([null, '2026-09-30']);
    expect(days('>2026-10')).toEqual(['2026-11-01', null]);
    expect(days('today')).toEqual([TODAY, TODAY]);
    expect(days('yesterday')).toEqual(['2026-11-24', '2026-11-24']);
  });

  it('keeps ordinary words that only begin like something else', () => {
    expect(termsOf('dead since friday').map(({ kind }) => kind)).toEqual(['text', 'text', 'text']);
    expect(termsOf('10u 25V X5R').map(({ kind }) => kind)).toEqual(['text', 'text', 'text']);
    expect(termsOf('"no draw"')).toMatchObject([{ kind: 'text', isPhrase: true }]);
    expect(termsOf('screen-flicker')).toMatchObject([{ words: ['screen', 'flicker'] }]);
  });

  it('reads liquid, states, comebacks, job numbers and tags', () => {
    expect(termsOf('liquid no liquid')).toMatchObject([
      { kind: 'liquid', is: 'yes' },
      { kind: 'liquid', is: 'no' },
    ]);
    expect(termsOf('waiting for parts')).toMatchObject([{ kind: 'waiting', waitingFor: 'parts' }]);
    expect(termsOf('closed jobs comebacks')).toMatchObject([
      { kind: 'state', state: 'closed' },
      { kind: 'comeback' },
    ]);
    expect(termsOf('#12')).toMatchObject([{ kind: 'number', number: 12 }]);
  });

  it('leaves out what has neither a letter nor a digit', () => {
    expect(termsOf('* -- ) ( " : ^ + > <')).toEqual([]);
    expect(termsOf('NEAR(a b) AND OR NOT').map(({ kind }) => kind)).toEqual(
      Array.from({ length: 5 }, () => 'text'),
    );
  });

  it('points at the character that is wrong', () => {
    expect(wrongOf('stalled 0.2..0.3 main')).toMatchObject({
      at: 16,
      what: expect.stringMatching(/no unit/),
    });
    expect(wrongOf('stalled 0.3..0.2 A')).toMatchObject({
      at: 13,
      what: expect.stringMatching(/below the lower/),
    });
    expect(wrongOf('>5')).toMatchObject({ at: 2 });
    expect(wrongOf('dead 2026-13')).toMatchObject({
      at: 5,
      what: expect.stringMatching(/No calendar/),
    });
    expect(wrongOf('2026-11..2026-10')).toMatchObject({ at: 9 });
    expect(wrongOf('stalled 0.2V..0.3A')).toMatchObject({
      at: 8,
      what: expect.stringMatching(/different units/),
    });
    expect(wrongOf('0.2..')).toMatchObject({ at: 5 });
  });

  it('takes whatever is typed without throwing, and points inside it', () => {
    const spice = fc.constantFrom(
      ...[
        'stalled',
        'rail',
        'low',
        '0.2..',
        '..',
        '0.3 A',
        '>',
        '"',
        '*',
        'NEAR(',
        '--',
        '#',
        '2026-',
      ],
      ...[' ', 'since', '2026-02-31', '5-', '\u0000', 'Ω', '🔥', 'İ', "'", ';'],
    );
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc
        .array(fc.oneof(spice, fc.string({ maxLength: 5 })), { maxLength: 12 })
        .map((p) => p.join(' ')),
      fc.array(spice, { maxLength: 12 }).map((p) => p.join('')),
    );
    fc.assert(
      fc.property(text, (search) => {
        const parsed = parseSearch(search, TODAY);
        if (parsed.ok) {
          for (const { from, to } of parsed.terms) {
            expect(from).toBeLessThan(to);
            expect(to).toBeLessThanOrEqual(search.length);
          }
        } else {
          expect(parsed.at).toBeGreaterThanOrEqual(0);
          expect(parsed.at).toBeLessThanOrEqual(search.length);
          expect(parsed.todo).not.toBe('');
        }
      }),
      { numRuns: 2_000 },
    );
  });
});
