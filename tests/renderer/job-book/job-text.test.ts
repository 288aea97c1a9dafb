import { describe, expect, it } from 'vitest';
import { jobFields } from '../../../core/contract/fields.ts';
import { EMPTY_JOB, fieldsOf, textOf, wrongIn } from '../../../renderer/job-book/job-text.ts';
import { fakeJob } from '../../support/fake-jobs.ts';

describe('taking in a job', () => {
  it('needs a board or a symptom and no more', () => {
    expect(wrongIn(EMPTY_JOB)).toMatch(/board or the symptom/);
    const text = { ...EMPTY_JOB, symptom: 'dead' };
    expect(wrongIn(text)).toBeNull();
    expect(jobFields.parse(fieldsOf(text))).toMatchObject({ boardModel: null, symptom: 'dead' });
  });

  it('reads volts and amps as people write them', () => {
    const text = { ...EMPTY_JOB, symptom: 'x', statedInputV: '19V', statedLimitA: '800 mA' };
    expect(fieldsOf(text).board).toMatchObject({ statedInputV: 19, statedLimitA: 0.8 });
  });

  it('says which number is wrong and what to do', () => {
    const wrong = wrongIn({ ...EMPTY_JOB, symptom: 'x', runningA: 'lots' });
    expect(wrong).toMatch(/^Running draw: /);
    expect(wrong).toMatch(/Type amps like/);
    expect(wrongIn({ ...EMPTY_JOB, symptom: 'x', statedInputV: '-5' })).toMatch(/cannot be -5/);
    expect(wrongIn({ ...EMPTY_JOB, symptom: 'x', statedInputV: 'OL' })).not.toBeNull();
  });

  it('gives back what was stored', () => {
    const { job } = fakeJob(3, {}, 0);
    const { id, number, state, createdAt, updatedAt, comebackOf, outcome, ...fields } = job;
    expect(fieldsOf(textOf(job))).toEqual(fields);
  });
});
