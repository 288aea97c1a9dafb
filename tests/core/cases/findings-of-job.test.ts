import { describe, expect, it } from 'vitest';
import { findingsOfJob } from '../../../core/cases/findings-of-job.ts';
import type { Job, JobWhole, Part, Reading } from '../../../core/job/job.ts';
import { jobFields } from '../../support/ledger-samples.ts';

const job: Job = {
  ...jobFields({ liquid: 'yes' }),
  id: 'job',
  number: 1,
  state: 'open',
  createdAt: 1,
  updatedAt: 1,
  comebackOf: null,
  outcome: null,
};
const reading = (value: number, takenAt: number): Reading => ({
  id: `reading-${takenAt}`,
  jobId: 'job',
  itemId: null,
  runId: null,
  quantity: 'volts',
  value,
  overload: false,
  decimals: 3,
  place: 'Main rail',
  expectedLow: 8.2,
  expectedHigh: 9,
  source: 'meter',
  takenAt,
});
const fitted: Part = {
  id: 'part',
  jobId: 'job',
  action: 'fitted',
  designator: 'C12',
  kind: '',
  value: '',
  rail: '',
  stateFound: '',
  from: '',
  at: 15,
};
const keysOf = (whole: Partial<JobWhole>) =>
  findingsOfJob(
    { job, items: [], readings: [], parts: [], runs: [], ...whole },
    [],
    [{ question: 'polarity', outcome: 'right', at: 5 }],
  ).map(({ key }) => key);

describe('what a job has seen that speaks for causes', () => {
  // 8.6 V is the main rail of one small-laptop class (common practice, no source).
  it('answers the main rail from readings with expected values', () => {
    expect(keysOf({ readings: [reading(3.1, 10)] })).toContain('main-rail:low');
    expect(keysOf({ readings: [reading(0.1, 10)] })).toContain('main-rail:missing');
    expect(keysOf({ readings: [reading(8.6, 10)] })).toContain('main-rail:present');
  });

  it('leaves out what was read after a part was fitted: that is another board', () => {
    const keys = keysOf({ readings: [reading(3.1, 10), reading(8.6, 20)], parts: [fitted] });
    expect(keys).toContain('main-rail:low');
    expect(keys).not.toContain('main-rail:present');
  });

  it('takes liquid from intake and answers from whoever looked', () => {
    expect(keysOf({})).toEqual(['liquid:seen', 'polarity:right']);
  });
});
