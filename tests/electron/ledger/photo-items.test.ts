import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { templateFor } from '../../../core/checklist/template.ts';
import { stepFrom } from '../../../core/checklist/template-step.ts';
import { WakelineError } from '../../../core/errors.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { addPicture } from '../../support/add-picture.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { makePng } from '../../support/make-pictures.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const ledger = await openLedgerInThread({
  path: path.join(tempFolder('photo-items'), 'ledger.sqlite'),
});
afterAll(() => ledger.close());
const { handlers } = ledger;

const photo = stepFrom({
  step: 'both-sides',
  phase: 'Take in',
  title: 'Both sides, as it came',
  needs: 'photo',
});
const { key, title, steps } = templateFor('liquid');
await handlers.saveTemplate({
  key,
  title,
  steps: [photo, ...steps],
  understood: [],
  isFromFile: false,
});

describe('a step that needs a picture', () => {
  it('is done by one tied to it, by no tick and no other, and opens with its last one in the bin', async () => {
    await handlers.sayInitials({ initials: 'KV' });
    const { id: jobId } = await handlers.createJob(jobFields({ template: 'liquid' }));
    const item = async () =>
      (await handlers.readJob({ id: jobId })).items.find(({ step }) => step === 'both-sides')!;
    const { id: itemId } = await item();
    const refused = await Promise.resolve(handlers.doItem({ jobId, itemId, note: 'seen' })).then(
      () => null,
      (e: unknown) => (e instanceof WakelineError ? e.trouble.todo : e),
    );
    expect(refused).toMatch(/^Attach a picture/);
    const free = await addPicture(handlers, { jobId }, makePng({ width: 8, height: 8 }));
    expect((await item()).state).toBe('open');
    const { id: pictureId, boardModel: _, ...fields } = free;
    await handlers.changePicture({ id: pictureId, fields: { ...fields, itemId } });
    expect(await item()).toMatchObject({ state: 'done', doneBy: 'KV' });
    await handlers.binPicture({ id: pictureId });
    expect(await item()).toMatchObject({ state: 'open', doneBy: '' });
    await handlers.restorePicture({ id: pictureId });
    expect((await item()).state).toBe('done');
    await addPicture(handlers, { jobId }, makePng({ width: 9, height: 8 }), {
      fields: { itemId },
    });
    await handlers.binPicture({ id: pictureId });
    expect((await item()).state).toBe('done');
  });
});
