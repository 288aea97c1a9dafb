import { describe, expect, it } from 'vitest';
import { NO_DETAILS, type PartDetails } from '../../../core/donors/donor-board.ts';
import { partFacts } from '../../../core/donors/part-facts.ts';
import { readPartValue } from '../../../core/donors/spec-of-part.ts';
import type { Part } from '../../../core/job/job.ts';
import { evidenceNotes, partNotes } from '../../../core/record/case-notes.ts';

const part = (id: string, action: Part['action'], value: string, at: number): Part => ({
  id,
  jobId: 'job',
  action,
  designator: 'C12',
  kind: '',
  value,
  rail: 'MAIN',
  stateFound: '',
  from: '',
  at,
});
const kept = (one: Part) =>
  [
    one.id,
    {
      details: NO_DETAILS,
      spec: readPartValue(one).spec,
      equivalence: null,
      putBackOf: null,
    },
  ] as const;

describe('what the record says of parts', () => {
  it('names a fitted part that is none, and what nobody checked', () => {
    const parts = [
      part('a', 'lifted', '10uF 25V 20% X5R 1206', 1),
      part('b', 'fitted', '10uF 6.3V 20% X5R 1206', 2),
    ];
    const note = partNotes(parts, partFacts(parts, new Map(parts.map(kept)))).at(-1);
    expect(note).toMatch(/^C12: Not equal\./);
    expect(note).toContain('Not checked: ');
  });

  it('says why a part stays off', () => {
    const off = part('a', 'lifted', '', 1);
    const details = { ...NO_DETAILS, leftOff: 'for-good' as const, decision: 'one of six' };
    const said = (changed: Partial<PartDetails>) => {
      const own = { details: { ...details, ...changed }, spec: null };
      const kept = new Map([['a', { ...own, equivalence: null, putBackOf: null }]]);
      return partNotes([off], partFacts([off], kept));
    };
    expect(said({})).toEqual(['C12 stays off: one of six.']);
    expect(said({ agreedBy: 'customer, by phone' })).toEqual([
      'C12 stays off: one of six, as agreed: customer, by phone.',
    ]);
    expect(said({ leftOff: 'no', decision: '' })).toEqual([
      'C12 was lifted and nothing was fitted there, not decided.',
    ]);
  });

  it('prints no evidence when nothing was seen', () => {
    expect(evidenceNotes(null)).toEqual([]);
  });
});
