import { describe, expect, it } from 'vitest';
import { templates } from '../../../core/checklist/template.ts';
import { templateFaults } from '../../../core/checklist/template-faults.ts';
import { stepFrom, type TemplateStep } from '../../../core/checklist/template-step.ts';

const step = (part: Partial<TemplateStep>): TemplateStep =>
  stepFrom({ step: 'a', phase: 'Look', title: 'A step', ...part });
const faultsOf = (...steps: readonly TemplateStep[]) =>
  templateFaults({ key: 'ours', title: 'Ours', steps }).map(({ index, what }) => [index, what]);
const reading = { needs: 'reading', quantity: 'ohms', place: 'Input' } as const;

describe('templateFaults', () => {
  it('finds nothing in what is built in', () => {
    for (const template of templates) expect(templateFaults(template)).toEqual([]);
  });

  it.each<[string, Partial<TemplateStep>, RegExp]>([
    ['no title', { title: ' ' }, /no usable title/],
    ['a reading of nothing', { needs: 'reading', place: 'Input' }, /not of what/],
    ['a reading from nowhere', { ...reading, place: ' ' }, /not where/],
    ['a quantity without a reading', { quantity: 'volts' }, /needs no reading/],
    ['an empty caution', { caution: 'hot' }, /says nothing/],
    ['a caution step without its caution', { needs: 'caution' }, /has no text/],
    ['a run that holds power back', { needs: 'run', gate: 'power' }, /never be done/],
    ['amps that hold power back', { ...reading, quantity: 'amps', gate: 'power' }, /never be done/],
    ['ohms that hold ohms back', { ...reading, gate: 'ohms' }, /never be done/],
    ['a soak that holds the soak back', { step: 'soaked', gate: 'soak' }, /never be done/],
    ['a key that is none', { step: 'A Step' }, /cannot name a step/],
  ])('names %s', (_, part, what) => {
    expect(faultsOf(step({}), step({ step: 'b', ...part }))).toEqual([
      [1, expect.stringMatching(what)],
    ]);
  });

  it('lets a reading without a place ask for the points from before a fit', () => {
    expect(faultsOf(step({ ...reading, place: '', when: 'part-fitted' }))).toEqual([]);
  });

  it('names a gate that stands behind what it holds back', () => {
    const late = faultsOf(
      step({ ...reading, step: 'ohms' }),
      step({ step: 'cells', gate: 'ohms' }),
      step({ step: 'run', phase: 'Power', needs: 'run' }),
      step({ step: 'valves', phase: 'Power', gate: 'power' }),
      step({ step: 'soaked', phase: 'Prove' }),
      step({ step: 'clean', phase: 'Prove', gate: 'soak' }),
    );
    expect(late).toEqual([
      [1, expect.stringMatching(/holds ohms back, but "A step" comes before/)],
      [3, expect.stringMatching(/holds power back/)],
      [5, expect.stringMatching(/holds the soak back/)],
    ]);
  });

  it('names phases out of order, steps that come twice and a template without steps', () => {
    expect(faultsOf(step({ phase: 'Power' }), step({ step: 'b' }))).toEqual([
      [1, expect.stringMatching(/^Look comes before Power/)],
    ]);
    expect(faultsOf(step({}), step({}))).toEqual([[1, expect.stringMatching(/comes twice/)]]);
    expect(faultsOf()).toEqual([[null, 'There is no step']]);
  });
});
