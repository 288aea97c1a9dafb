import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { templateFor } from '../../../core/checklist/template.ts';
import type { TemplateStep } from '../../../core/checklist/template-step.ts';
import { WakelineError } from '../../../core/errors.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { openBare } from '../../support/ledger-schema.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const file = path.join(tempFolder('templates'), 'ledger.sqlite');
let ledger = await openLedgerInThread({ path: file });
afterAll(() => ledger.close());
const ask = () => ledger.handlers;

const troubleOf = (call: () => unknown) =>
  Promise.resolve()
    .then(call)
    .then(
      () => null,
      (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
    );
const save = (
  key: string | null,
  steps: readonly TemplateStep[],
  understood: readonly string[] = [],
) =>
  ask().saveTemplate({
    key,
    title: key === null ? 'Amplifier hums' : templateFor(key).title,
    steps: [...steps],
    understood: [...understood],
    isFromFile: false,
  });
const { steps } = templateFor('charging');
const reworded = steps.map((step, i) => (i === 0 ? { ...step, title: 'Hear it, see it' } : step));
const stepsOf = async (id: string) =>
  (await ask().readJob({ id })).items.map(({ step, title }) => `${step}: ${title}`);

describe('checklists in versions', () => {
  it('begin as built in, and follow one another without changing what was before', async () => {
    const listed = await ask().listTemplates({});
    expect(listed.map(({ key, version, origin }) => [key, version, origin])).toContainEqual([
      'charging',
      1,
      'built-in',
    ]);
    await ask().sayInitials({ initials: 'KV' });
    const kept = await save('charging', reworded);
    expect(kept).toMatchObject({ version: 2, origin: 'shop', madeBy: 'KV', lost: [] });
    const history = await ask().templateHistory({ key: 'charging' });
    expect(history.map(({ version }) => version)).toEqual([2, 1]);
    expect(history[1]?.steps).toEqual(steps);
  });

  it('give a new job the newest, and leave open jobs with theirs, after a fit and a restart too', async () => {
    const old = await ask().createJob(jobFields({ template: 'charging' }));
    expect((await stepsOf(old.id))[0]).toBe('see-the-fault: Hear it, see it');
    const asked = steps.filter(({ step }) => step !== 'second-run');
    await save('charging', asked, ['second-run:gone']);
    const fresh = await ask().createJob(jobFields({ template: 'charging' }));
    const fit = { action: 'fitted', designator: 'C1', kind: '', value: '', rail: '' } as const;
    for (const jobId of [old.id, fresh.id]) {
      await ask().addPart({ jobId, part: { ...fit, stateFound: '', from: '' } });
    }
    const hasSecondRun = async (id: string) =>
      (await stepsOf(id)).some((step) => step.startsWith('second-run'));
    expect(await hasSecondRun(old.id)).toBe(true);
    expect(await hasSecondRun(fresh.id)).toBe(false);
    await ledger.close();
    ledger = await openLedgerInThread({ path: file });
    const walked = await ask().readJobTemplate({ jobId: old.id });
    expect([walked.version?.version, walked.newest]).toEqual([2, 3]);
    expect((await ask().readJobTemplate({ jobId: fresh.id })).version?.lost).toEqual([
      expect.stringMatching(/Second run.* is gone: nothing holds back closing/),
    ]);
  });

  it('refuse to guard less until a person says to know it, and keep nothing until then', async () => {
    const weak = steps.map((step) =>
      step.step === 'cells-unplugged' ? { ...step, gate: 'nothing' as const } : step,
    );
    const before = (await ask().templateHistory({ key: 'charging' })).length;
    expect(await troubleOf(() => save('charging', weak))).toMatchObject({
      code: 'gate-closed',
      what: expect.stringMatching(/no longer holds back ohms.*A cell left in feeds the meter/),
    });
    expect(await ask().templateHistory({ key: 'charging' })).toHaveLength(before);
    const kept = await save('charging', weak, ['cells-unplugged:holds-nothing']);
    expect(kept.lost).toHaveLength(1);
    const back = await ask().restoreTemplate({ key: 'charging' });
    expect(back).toMatchObject({ origin: 'built-in', steps, lost: [], version: kept.version + 1 });
  });

  it('name the step that cannot be walked', async () => {
    const deaf = steps.map((step) => (step.step === 'ohms-input' ? { ...step, place: '' } : step));
    expect(await troubleOf(() => save('charging', deaf))).toMatchObject({
      code: 'bad-input',
      where: expect.stringMatching(/step \d+ "Resistance to ground, input"/),
    });
  });

  it('take a kind of the shop’s own, put it away and offer it again', async () => {
    const own = await save(null, steps);
    expect(own).toMatchObject({ key: 'amplifier-hums', version: 1 });
    expect((await ask().createJob(jobFields({ template: own.key }))).template).toBe(own.key);
    expect(await ask().putTemplateAway({ key: own.key, isAway: true })).toMatchObject({
      origin: 'away',
    });
    expect((await ask().putTemplateAway({ key: own.key, isAway: false })).origin).toBe('shop');
    for (const call of [
      () => ask().putTemplateAway({ key: 'liquid', isAway: true }),
      () => ask().restoreTemplate({ key: own.key }),
      () => ask().createJob(jobFields({ template: 'nobody' })),
    ]) {
      expect(await troubleOf(call)).toMatchObject({ code: 'bad-input' });
    }
  });

  it('follow an update of the app only where the shop had not changed them', async () => {
    await ask().listTemplates({});
    await ledger.close();
    const sqlite = openBare(file);
    sqlite.exec(
      "update checklist_templates set steps_json = '[]' where key in ('liquid', 'charging') and origin = 'built-in'",
    );
    sqlite.exec(
      "insert into checklist_templates values ('01900000-0000-7000-8000-000000000001', 'controller', 9, 'Ours', '[]', 'shop', '[]', '', 1)",
    );
    sqlite.close();
    ledger = await openLedgerInThread({ path: file });
    const listed = await ask().listTemplates({});
    const liquid = listed.find(({ key }) => key === 'liquid');
    expect(liquid).toMatchObject({ version: 2, steps: templateFor('liquid').steps });
    expect(listed.find(({ key }) => key === 'controller')).toMatchObject({
      version: 9,
      title: 'Ours',
    });
  });
});

describe('who settled a step', () => {
  it('is written with the initials of that moment, and goes when the step opens again', async () => {
    const { id } = await ask().createJob(jobFields());
    const [first, second] = (await ask().readJob({ id })).items;
    await ask().doItem({ jobId: id, itemId: first!.id, note: '' });
    await ask().sayInitials({ initials: 'RO' });
    await ask().skipItem({ jobId: id, itemId: second!.id, reason: 'nobody to ask' });
    const by = async () =>
      (await ask().readJob({ id })).items.slice(0, 2).map(({ doneBy }) => doneBy);
    expect(await by()).toEqual(['KV', 'RO']);
    await ask().reopenItem({ jobId: id, itemId: first!.id });
    expect(await by()).toEqual(['', 'RO']);
    expect(await ask().readInitials({})).toBe('RO');
  });
});

describe('closing a job as waking', () => {
  const outcome = { verdict: 'wakes', cause: '', provedBy: '', misledBy: '' } as const;
  it('waits for the points from before and the second run once a part was fitted', async () => {
    const { id } = await ask().createJob(jobFields());
    const part = { designator: 'C1', kind: '', value: '', rail: '', stateFound: '', from: '' };
    await ask().addPart({ jobId: id, part: { ...part, action: 'fitted' } });
    expect(await troubleOf(() => ask().closeJob({ id, outcome }))).toMatchObject({
      code: 'gate-closed',
      what: expect.stringMatching(/"Same point again: Input".*"Second run, same feed"/),
    });
    for (const item of (await ask().readJob({ id })).items) {
      if (item.gate === 'nothing' || item.gate === 'soak') continue;
      await ask().skipItem({ jobId: id, itemId: item.id, reason: 'proved elsewhere' });
    }
    expect((await ask().closeJob({ id, outcome })).state).toBe('closed');
  });

  it('closes as not repaired whatever is open', async () => {
    const { id } = await ask().createJob(jobFields());
    const part = { designator: 'C1', kind: '', value: '', rail: '', stateFound: '', from: '' };
    await ask().addPart({ jobId: id, part: { ...part, action: 'fitted' } });
    const closed = await ask().closeJob({ id, outcome: { ...outcome, verdict: 'not-repaired' } });
    expect(closed.state).toBe('closed');
  });
});
