import { describe, expect, it } from 'vitest';
import { customerPage } from '../../../core/record/customer-page.ts';
import { pictureGroups } from '../../../core/record/picture-figures.ts';
import { shopClock } from '../../../core/record/record-time.ts';
import {
  inventedJob,
  inventedPictures,
  inventedWhole,
  item,
  runAfter,
  runBefore,
} from '../../support/record-job.ts';

const clock = shopClock(60);
type Asked = Parameters<typeof customerPage>[0];
const page = (o: Partial<Asked> = {}) =>
  customerPage({
    whole: inventedWhole,
    runs: [runBefore(), runAfter()],
    partFacts: [],
    groups: pictureGroups(inventedPictures, inventedWhole, clock),
    warranty: null,
    clock,
    ...o,
  });
const bare = (text: string) => text.replaceAll(/[\u2066-\u2069]/g, '').replaceAll('\u00a0', ' ');
const linesOf = (o: Partial<Asked>, title: string) =>
  page(o)
    .sections.find((section) => section.title === title)
    ?.lines.map(bare) ?? null;

describe('the page for the owner', () => {
  it('says what was wrong, what was done and how it was proved, from what was recorded', () => {
    expect(linesOf({}, 'What was wrong')).toEqual([
      `You told us: “${inventedJob.symptom}”`,
      `We found: ${inventedJob.outcome!.cause}`,
    ]);
    expect(linesOf({}, 'What was done')).toEqual([
      'One part was replaced: C214 (ceramic capacitor).',
    ]);
    expect(linesOf({}, 'How it was proved')).toEqual([
      'It wakes and runs again.',
      inventedJob.outcome!.provedBy,
      'Before the repair it took a little current and nothing in it woke up; after the repair it started and ran.',
    ]);
  });

  it('says what was left out and why, and what is still open', () => {
    expect(linesOf({}, 'What was not done or not checked')).toEqual([
      'Photograph both sides: left out, camera away for repair.',
      'Still open: Soak.',
    ]);
    const all = { ...inventedWhole, items: [item({})] };
    expect(linesOf({ whole: all }, 'What was not done or not checked')).toEqual([
      'Every step of our list was done.',
    ]);
  });

  it('claims no more than the job knows while it is open', () => {
    const open = { ...inventedWhole, job: { ...inventedJob, outcome: null } };
    expect(linesOf({ whole: open }, 'How it was proved')).toEqual(['The work is not finished.']);
    const unsolved = {
      ...inventedWhole,
      job: { ...inventedJob, outcome: { ...inventedJob.outcome!, cause: '' } },
    };
    expect(linesOf({ whole: unsolved }, 'What was wrong')?.[1]).toBe('The cause was not found.');
  });

  it('tells of a soak by its own minutes', () => {
    const reason = 'Soak passed: 30 min of 30 min; draw 1.08 A to 1.34 A, mean 1.21 A.';
    const items = [item({ step: 'soaked', state: 'done', reason })];
    expect(linesOf({ whole: { ...inventedWhole, items } }, 'How it was proved')?.at(-1)).toBe(
      'It was left running for 30 min and watched all the time.',
    );
    const failed = [item({ step: 'soaked', state: 'open', reason: 'Soak failed: stopped' })];
    expect(
      linesOf({ whole: { ...inventedWhole, items: failed } }, 'How it was proved')?.join(' '),
    ).not.toContain('left running');
  });

  it('always says what is dangerous, and warns of corrosion after liquid', () => {
    const wet = { ...inventedWhole, job: { ...inventedJob, liquid: 'yes' as const } };
    expect(linesOf({ whole: wet }, 'What to look out for')?.[0]).toContain('Corrosion');
    expect(linesOf({}, 'What to look out for')?.at(-1)).toContain('battery swells');
  });

  it('prints a warranty only where one was given', () => {
    expect(linesOf({}, 'Warranty')).toBeNull();
    expect(
      linesOf({ warranty: { until: '2026-05-24', note: 'Not on liquid.' } }, 'Warranty'),
    ).toEqual(['On this repair, until 24 May 2026.', 'Not on liquid.']);
    expect(linesOf({ warranty: { until: 'soon', note: '' } }, 'Warranty')).toBeNull();
  });

  it('shows the pair that tells most, and leaves it out rather than run over the page', () => {
    expect(page().figures.map(({ head }) => head.split(':')[0])).toEqual(['Before', 'After']);
    const long = 'Water came in at the left edge. '.repeat(40);
    const wordy = {
      ...inventedWhole,
      job: { ...inventedJob, symptom: long, outcome: { ...inventedJob.outcome!, cause: long } },
    };
    const full = page({ whole: wordy });
    expect(full.figures).toEqual([]);
    expect(full.isCut).toBe(true);
  });
});
