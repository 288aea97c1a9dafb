import { describe, expect, it } from 'vitest';
import { CONSOLE_JOBS } from './worked-jobs/console-jobs.ts';
import { CONTROLLER_JOBS } from './worked-jobs/controller-jobs.ts';
import { LAPTOP_JOBS } from './worked-jobs/laptop-jobs.ts';
import { MIXED_JOBS } from './worked-jobs/mixed-jobs.ts';
import { PHONE_JOBS } from './worked-jobs/phone-jobs.ts';
import { type WorkedJob, walkWorkedJob } from './worked-jobs/worked-job.ts';

const BENCHES: readonly (readonly [string, readonly WorkedJob[]])[] = [
  ['laptop', LAPTOP_JOBS],
  ['phone', PHONE_JOBS],
  ['console', CONSOLE_JOBS],
  ['controller', CONTROLLER_JOBS],
  ['mixed', MIXED_JOBS],
];

// How the boards fail and what misleads is common practice, no source; the boards are invented.
describe.each(BENCHES)('worked %s jobs', (_, jobs) => {
  it.each(jobs.map((job) => [job.name, job] as const))('%s', (_name, job) => {
    const { rails, walk } = walkWorkedJob(job);
    const verdicts = Object.fromEntries(rails.map(({ rail, verdict }) => [rail.name, verdict]));
    expect(verdicts).toMatchObject(job.verdicts);

    const found = `${walk.summary}\n${walk.suspects.map(({ text, probability }) => `${probability.toFixed(3)} ${text}`).join('\n')}`;
    const within = job.within ?? job.truth.length + 1;
    const leading = walk.suspects.slice(0, within).flatMap(({ faults }) => faults);
    const keys = leading.map(({ key }) => key);
    expect(keys, found).toEqual(expect.arrayContaining([...job.truth]));
    if (job.truth.length === 0 && job.told === undefined) {
      expect(walk.summary).toMatch(/out of place|look beyond|fed from elsewhere/);
    }
    if (job.truth.length === 2) {
      expect(walk.double, found).toBeGreaterThan(job.double ?? 0.3);
    }

    const told = walk.contradictions.map(({ text }) => text).join('\n');
    for (const wanted of job.told ?? []) expect(told, found).toMatch(wanted);

    for (const [after, ...wanted] of job.proposes ?? []) {
      const proposed = walkWorkedJob(job, after).walk.next.map(
        ({ measurement }) => measurement.key,
      );
      expect(
        wanted.some((key) => proposed.includes(key)),
        proposed.join(', '),
      ).toBe(true);
    }
    for (const { why } of walk.next) expect(why.length).toBeGreaterThan(10);
  });
});
