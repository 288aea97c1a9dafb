import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { pictureFileName, pictureFolderOf } from '../../../electron/ledger/picture-folder.ts';
import { pictureResponse } from '../../../electron/windows/picture-response.ts';
import { addPicture } from '../../support/add-picture.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { makeJpeg, makePng } from '../../support/make-pictures.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const file = path.join(tempFolder('served'), 'ledger.sqlite');
const ledger = await openLedgerInThread({ path: file });
afterAll(() => ledger.close());
const { id: jobId } = await ledger.handlers.createJob(jobFields());
const bytes = makeJpeg({ width: 900, height: 700 });
const picture = await addPicture(ledger.handlers, { jobId }, bytes);
const at = (pathname: string) => pictureResponse(pathname, ledger);

describe('the address of a picture', () => {
  it('answers its bytes, as an image and as nothing else, and lets nobody keep a copy', async () => {
    const response = await at(`/pictures/${picture.id}/full`);
    expect(response?.status).toBe(200);
    expect(Buffer.from(await response!.arrayBuffer())).toEqual(bytes);
    expect(response?.headers.get('content-type')).toBe('image/jpeg');
    expect(response?.headers.get('x-content-type-options')).toBe('nosniff');
    expect(response?.headers.get('cache-control')).toBe('no-store');
  });

  it('is an id and a size: no way through it leads to any other file', async () => {
    const outside = [
      '/pictures/../ledger.sqlite',
      '/pictures/..%2f..%2fledger.sqlite',
      `/pictures/${picture.id}/../../ledger.sqlite`,
      `/pictures/${picture.id}/..`,
      `/pictures/${picture.id}`,
      `/pictures/${picture.id}/full/more`,
      `/pictures/${picture.id}/huge`,
      `/pictures/${picture.hash}/full`,
      '/pictures/%00/full',
      '/pictures/',
      '/pictures/019b8a5e-0000-7000-8000-000000000000/full',
    ];
    for (const pathname of outside) expect((await at(pathname))?.status, pathname).toBe(404);
  });

  it('leaves every other address to the app’s own files', async () => {
    expect(await at('/index.html')).toBeNull();
    expect(await at('/record/pictures/x')).toBeNull();
  });

  it('answers nothing before the ledger is open', async () => {
    expect((await pictureResponse(`/pictures/${picture.id}/full`, null))?.status).toBe(404);
  });

  it('says that a file which was changed is gone, and hands out none of it', async () => {
    const hurt = await addPicture(ledger.handlers, { jobId }, makePng({ width: 3, height: 4 }));
    const name = pictureFileName(hurt.hash, hurt.type);
    writeFileSync(path.join(pictureFolderOf(file), name), '<script>alert(1)</script>');
    const response = await at(`/pictures/${hurt.id}/full`);
    expect(response?.status).toBe(410);
    expect(await response?.text()).toBe('Lost');
  });
});
