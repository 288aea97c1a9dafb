import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { v7 } from 'uuid';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import type { Picture, PictureMark } from '../../../core/pictures/picture.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { pictureFileName, pictureFolderOf } from '../../../electron/ledger/picture-folder.ts';
import { addPicture, pictureFields, upload } from '../../support/add-picture.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { makeJpeg, makePng, withCameraNotes } from '../../support/make-pictures.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const file = path.join(tempFolder('pictures'), 'ledger.sqlite');
const clock = { ms: Date.UTC(2026, 0, 6, 12) };
const changed: string[] = [];
let ledger = await openLedgerInThread({
  path: file,
  now: () => clock.ms,
  onJobChanged: (id) => changed.push(id),
});
afterAll(() => ledger.close());
const newJob = async () => (await ledger.handlers.createJob(jobFields({ serialNumber: v7() }))).id;

const folder = pictureFolderOf(file);
const fileOf = (picture: Picture) => path.join(folder, pictureFileName(picture.hash, picture.type));
const filesOnDisk = () =>
  existsSync(folder)
    ? readdirSync(folder).flatMap((shard) => readdirSync(path.join(folder, shard)))
    : [];
const troubleOf = (call: unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
  );
const mark = (fields: Partial<PictureMark> = {}): PictureMark => ({
  id: v7(),
  kind: 'hot-spot',
  name: 'C412',
  x: 0.7,
  y: 0.4,
  temperatureC: 87.5,
  ...fields,
});

describe('a picture that is added', () => {
  it('lies in the ledger’s folder under the hash of what is in it, without where it was taken', async () => {
    const jobId = await newJob();
    const noted = withCameraNotes(makeJpeg({ width: 64, height: 48, seed: 2 }));
    const picture = await addPicture(ledger.handlers, { jobId }, noted, {
      fields: { kind: 'thermal', caption: 'Ten seconds at 0.5 V', rail: 'MAIN_8V6' },
    });
    expect(picture).toMatchObject({
      jobId,
      kind: 'thermal',
      caption: 'Ten seconds at 0.5 V',
      rail: 'MAIN_8V6',
      type: 'image/jpeg',
      width: 64,
      height: 48,
      marks: [],
    });
    const kept = readFileSync(fileOf(picture));
    expect(createHash('sha256').update(kept).digest('hex')).toBe(picture.hash);
    expect(kept.length).toBe(picture.bytes);
    expect(kept.includes('Somebody')).toBe(false);
    expect(await ledger.handlers.listPictures({ jobId })).toEqual([picture]);
    expect(changed).toContain(jobId);
  });

  it('takes the time from the camera where it told one that can be, and from who adds it else', async () => {
    const jobId = await newJob();
    const at = async (taken: string, seed: number) => {
      const bytes = withCameraNotes(makeJpeg({ width: 8, height: 8, seed }), { taken });
      return (await addPicture(ledger.handlers, { jobId }, bytes)).takenAt;
    };
    expect(await at('2026:01:05 09:30:00', 1)).toBe(new Date(2026, 0, 5, 9, 30).getTime());
    expect(await at('2031:01:05 09:30:00', 2)).toBe(pictureFields().takenAt);
  });

  it('is one file and one picture however often it is added to a job, and one file in two jobs', async () => {
    const [one, two] = [await newJob(), await newJob()];
    const bytes = makeJpeg({ width: 20, height: 20, seed: 3 });
    const before = filesOnDisk().length;
    const first = await addPicture(ledger.handlers, { jobId: one }, bytes);
    const again = await addPicture(ledger.handlers, { jobId: one }, bytes);
    const other = await addPicture(ledger.handlers, { jobId: two }, bytes);
    expect(again).toEqual(first);
    expect(other.id).not.toBe(first.id);
    expect(filesOnDisk().length).toBe(before + 1);
  });

  it('is handed out in the size asked for, or the next larger one that there is', async () => {
    const jobId = await newJob();
    const [full, sheet, small] = [60, 40, 20].map((width) =>
      makeJpeg({ width, height: width, seed: 4 }),
    );
    const picture = await addPicture(ledger.handlers, { jobId }, full!, {
      sheet: sheet!,
      small: small!,
    });
    const bytesOf = async (size: 'full' | 'sheet' | 'small') =>
      Buffer.from((await ledger.pictures.openPicture({ id: picture.id, size })).bytes);
    expect(await bytesOf('full')).toEqual(full);
    expect(await bytesOf('sheet')).toEqual(sheet);
    expect(await bytesOf('small')).toEqual(small);
    const bare = await addPicture(ledger.handlers, { jobId }, makePng({ width: 6, height: 6 }));
    const opened = await ledger.pictures.openPicture({ id: bare.id, size: 'small' });
    expect(opened.type).toBe('image/png');
  });

  it('survives the app: a ledger that is opened again has it with its marks', async () => {
    const jobId = await newJob();
    const { id } = await addPicture(ledger.handlers, { jobId }, makePng({ width: 9, height: 7 }));
    const marks = [mark(), mark({ kind: 'point', name: 'TP7', temperatureC: null })];
    const marked = await ledger.handlers.saveMarks({ id, marks });
    expect(marked.marks).toEqual(marks);
    await ledger.close();
    ledger = await openLedgerInThread({ path: file, now: () => clock.ms });
    expect(await ledger.handlers.listPictures({ jobId })).toEqual([marked]);
    expect(await ledger.handlers.readPictureState({ id })).toBeNull();
  });
});

describe('what is refused', () => {
  it('a text that is called a picture: nothing is kept of it', async () => {
    const jobId = await newJob();
    const before = filesOnDisk();
    const trouble = await troubleOf(
      addPicture(ledger.handlers, { jobId }, Buffer.from('only words, whatever the name')),
    );
    expect(trouble).toMatchObject({ code: 'bad-picture', where: 'picture.jpg' });
    expect(await ledger.handlers.listPictures({ jobId })).toEqual([]);
    expect(filesOnDisk()).toEqual(before);
  });

  it('pieces that do not follow one another, and a file that never came', async () => {
    const { sendPicturePiece, addPicture: add } = ledger.handlers;
    const name = v7();
    const bytes = new Uint8Array(10);
    await sendPicturePiece({ upload: name, at: 0, bytes });
    const gap = await troubleOf((async () => sendPicturePiece({ upload: name, at: 99, bytes }))());
    expect(gap).toMatchObject({ code: 'bad-input' });
    const owner = { jobId: await newJob() };
    const never = { upload: v7(), small: null, sheet: null, fileName: 'x.jpg', owner };
    expect(await troubleOf(add({ ...never, fields: pictureFields() }))).toMatchObject({
      code: 'bad-input',
    });
  });

  it('forgets the oldest of many half-sent files instead of filling the memory', async () => {
    const first = await upload(ledger.handlers, makePng({ width: 2, height: 2 }));
    for (let i = 0; i < 6; i += 1) await upload(ledger.handlers, new Uint8Array(4));
    const owner = { jobId: await newJob() };
    const asked = { upload: first, small: null, sheet: null, fileName: 'x.png', owner };
    const trouble = await troubleOf(
      ledger.handlers.addPicture({ ...asked, fields: pictureFields() }),
    );
    expect(trouble).toMatchObject({ code: 'bad-input' });
  });

  it('ties to another job’s part, step or picture, and to itself', async () => {
    const [own, other] = [await newJob(), await newJob()];
    const part = await ledger.handlers.addPart({
      jobId: other,
      part: {
        action: 'lifted',
        designator: 'C412',
        kind: '',
        value: '',
        rail: '',
        stateFound: '',
        from: '',
      },
    });
    const png = makePng({ width: 3, height: 3 });
    const foreign = await troubleOf(
      addPicture(ledger.handlers, { jobId: own }, png, { fields: { partId: part.id } }),
    );
    expect(foreign).toMatchObject({ code: 'bad-input' });
    const { id } = await addPicture(ledger.handlers, { jobId: other }, png, {
      fields: { partId: part.id },
    });
    const itself = ledger.handlers.changePicture({ id, fields: pictureFields({ beforeId: id }) });
    expect(await troubleOf(itself)).toMatchObject({ code: 'bad-input' });
  });

  it('a job that is not there', async () => {
    const adding = addPicture(ledger.handlers, { jobId: v7() }, makePng({ width: 2, height: 2 }));
    expect(await troubleOf(adding)).toMatchObject({ code: 'not-found' });
  });
});

describe('a file that was lost or changed outside the app', () => {
  it('is told by name, the rest of the job stays, and adding it again puts it right', async () => {
    const jobId = await newJob();
    const bytes = makePng({ width: 12, height: 5, rgb: [1, 2, 3] });
    const picture = await addPicture(ledger.handlers, { jobId }, bytes);
    const state = () => troubleOf(Promise.resolve(ledger.handlers.readPictureState(picture)));

    writeFileSync(fileOf(picture), 'tampered with');
    expect(await state()).toMatchObject({
      code: 'picture-lost',
      what: expect.stringContaining('changed outside the app'),
      where: fileOf(picture),
    });
    rmSync(fileOf(picture));
    expect(await state()).toMatchObject({ what: expect.stringContaining('missing') });
    expect(await ledger.handlers.listPictures({ jobId })).toHaveLength(1);

    await addPicture(ledger.handlers, { jobId }, bytes);
    expect(await state()).toBeNull();
  });
});

describe('the bin', () => {
  it('keeps the file until it is emptied, and a file that another job shows stays for good', async () => {
    const [one, two] = [await newJob(), await newJob()];
    const shared = makeJpeg({ width: 30, height: 30, seed: 5 });
    const own = makeJpeg({ width: 30, height: 30, seed: 6 });
    const sharedHere = await addPicture(ledger.handlers, { jobId: one }, shared);
    const ownHere = await addPicture(ledger.handlers, { jobId: one }, own);
    const sharedThere = await addPicture(ledger.handlers, { jobId: two }, shared);
    const later = await addPicture(
      ledger.handlers,
      { jobId: two },
      makePng({ width: 4, height: 9 }),
      {
        fields: { beforeId: sharedThere.id },
      },
    );

    for (const { id } of [sharedHere, ownHere]) await ledger.handlers.binPicture({ id });
    expect(await ledger.handlers.listPictures({ jobId: one })).toEqual([]);
    const lines = await ledger.handlers.listBinnedPictures({});
    const number = (await ledger.handlers.readJob({ id: one })).job.number;
    expect(lines.map((line) => [line.picture.id, line.jobNumber])).toEqual([
      [sharedHere.id, number],
      [ownHere.id, number],
    ]);
    expect(existsSync(fileOf(ownHere))).toBe(true);

    await ledger.handlers.restorePicture({ id: ownHere.id });
    expect(await ledger.handlers.listPictures({ jobId: one })).toHaveLength(1);
    await ledger.handlers.binPicture({ id: ownHere.id });

    expect(await ledger.handlers.emptyBin({})).toBe(2);
    expect(existsSync(fileOf(ownHere))).toBe(false);
    expect(existsSync(fileOf(sharedThere))).toBe(true);
    expect(await ledger.handlers.listPictures({ jobId: two })).toEqual([sharedThere, later]);
  });

  it('takes a picture back from it when the same file is added again', async () => {
    const jobId = await newJob();
    const bytes = makePng({ width: 7, height: 7 });
    const { id } = await addPicture(ledger.handlers, { jobId }, bytes);
    await ledger.handlers.binPicture({ id });
    expect((await addPicture(ledger.handlers, { jobId }, bytes)).id).toBe(id);
    expect(await ledger.handlers.listPictures({ jobId })).toHaveLength(1);
  });

  it('empties a job with its pictures, and leaves alone what is none of ours', async () => {
    const jobId = await newJob();
    const picture = await addPicture(
      ledger.handlers,
      { jobId },
      makeJpeg({ width: 9, height: 9, seed: 7 }),
    );
    const strange = path.join(path.dirname(fileOf(picture)), 'notes.txt');
    writeFileSync(strange, 'somebody put this here');
    await ledger.handlers.binJob({ id: jobId });
    expect(existsSync(fileOf(picture))).toBe(true);
    await ledger.handlers.emptyBin({});
    expect(existsSync(fileOf(picture))).toBe(false);
    expect(readFileSync(strange, 'utf8')).toBe('somebody put this here');
  });

  it('never takes a file whose picture is being added at that moment', async () => {
    const jobId = await newJob();
    const added = await Promise.all([
      addPicture(ledger.handlers, { jobId }, makeJpeg({ width: 40, height: 40, seed: 8 })),
      ledger.handlers.emptyBin({}),
      addPicture(ledger.handlers, { jobId }, makeJpeg({ width: 40, height: 40, seed: 9 })),
      ledger.handlers.emptyBin({}),
    ]);
    for (const picture of [added[0], added[2]]) expect(existsSync(fileOf(picture))).toBe(true);
  });
});

it('keeps pictures of a board model apart from jobs, found under any spelling of its name', async () => {
  const png = makePng({ width: 11, height: 8 });
  const picture = await addPicture(ledger.handlers, { boardModel: 'Tern 14' }, png);
  expect(picture).toMatchObject({ jobId: null, boardModel: 'Tern 14' });
  const found = await ledger.handlers.listBoardPictures({ boardModel: ' tern14' });
  expect(found).toEqual([picture]);
});
