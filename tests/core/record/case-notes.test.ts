import { describe, expect, it } from 'vitest';
import { NO_DETAILS } from '../../../core/donors/donor-board.ts';
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
  [one.id, { details: NO_DETAILS, spec: readPartValue(one).spec }] as const;

describe('what the record says of parts', () => {
  it('names a fitted part that is none, and what nobody checked', () => {
    const parts = [
      part('a', 'lifted', '10uF 25V 20% X5R 1206', 1),
      part('b', 'fitted', '10uF 6.3V 20% X5R 1206', 2),
    ];
    const [note] = partNotes(parts, partFacts(parts, new Map(parts.map(kept))));
    expect(note).toMatch(/^C12: Not equal\./);
    expect(note).toContain('Not checked: ');
  });

  it('says why a part stays off', () => {
    const off = part('a', 'lifted', '', 1);
    const details = { ...NO_DETAILS, leftOff: 'for-good' as const, decision: 'one of six' };
    const facts = partFacts([off], new Map([['a', { details, spec: null }]]));
    expect(partNotes([off], facts)).toEqual(['C12 stays off: one of six.']);
  });

  it('prints no evidence when nothing was seen', () => {
    expect(evidenceNotes(null)).toEqual([]);
  });
});
