import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { writeWholeFile } from '../../../electron/record/write-whole-file.ts';

const bytes = new TextEncoder().encode('whole');
const isRoot = process.getuid?.() === 0;
const UNSHARE = ['-rm', 'sh', '-c'];
const canMount =
  spawnSync('unshare', [...UNSHARE, 'mount -t tmpfs none /mnt'], { stdio: 'ignore' }).status === 0;
let folder: string;

async function troubleOfWriting(target: string) {
  const thrown = await writeWholeFile(target, bytes).then(
    () => null,
    (error: unknown) => error,
  );
  if (!(thrown instanceof WakelineError)) throw new Error(`wrote ${target}, or threw ${thrown}`);
  return thrown.trouble;
}

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'wakeline-whole-'));
});

describe('writeWholeFile', () => {
  it('writes the file and leaves nothing beside it', async () => {
    await writeWholeFile(path.join(folder, 'a.pdf'), bytes);
    expect(readFileSync(path.join(folder, 'a.pdf'), 'utf8')).toBe('whole');
    expect(readdirSync(folder)).toEqual(['a.pdf']);
  });

  it('replaces an earlier file', async () => {
    writeFileSync(path.join(folder, 'a.pdf'), 'earlier and longer');
    await writeWholeFile(path.join(folder, 'a.pdf'), bytes);
    expect(readFileSync(path.join(folder, 'a.pdf'), 'utf8')).toBe('whole');
  });

  it('says that the folder is missing, where, and what to do', async () => {
    const target = path.join(folder, 'gone', 'a.pdf');
    expect(await troubleOfWriting(target)).toEqual({
      code: 'file-not-written',
      what: 'The file could not be written: its folder does not exist',
      where: target,
      todo: 'Choose a folder that exists and export again. Nothing that was there before has changed.',
    });
  });

  it('leaves a folder of that name alone and takes its own part away', async () => {
    const target = path.join(folder, 'a.pdf');
    mkdirSync(target);
    expect((await troubleOfWriting(target)).what).toContain('a folder has that name');
    expect(readdirSync(folder)).toEqual(['a.pdf']);
  });

  it('says that the folder is a file, or the name too long, and takes its own part away', async () => {
    writeFileSync(path.join(folder, 'file'), '');
    const inFile = await troubleOfWriting(path.join(folder, 'file', 'a.pdf'));
    expect(inFile.what).toContain('its folder is a file');
    const tooLong = await troubleOfWriting(path.join(folder, `${'x'.repeat(300)}.pdf`));
    expect(tooLong.what).toContain('the name is too long');
    expect(readdirSync(folder)).toEqual(['file']);
  });

  // A full disk of our own: a 64 KB file system in a private mount, where the system allows one.
  it.skipIf(!canMount)(
    `keeps the earlier file when the disk is full${canMount ? '' : ' (skipped: this system does not let us mount a small disk)'}`,
    () => {
      const writer = path.resolve(
        import.meta.dirname,
        '../../../electron/record/write-whole-file.ts',
      );
      const script = `
        import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
        const { writeWholeFile } = await import(${JSON.stringify(writer)});
        writeFileSync('a.pdf', 'earlier');
        const trouble = await writeWholeFile('a.pdf', new Uint8Array(200_000)).catch((e) => e.trouble);
        console.log(JSON.stringify({ trouble, left: readdirSync('.'), text: readFileSync('a.pdf', 'utf8') }));`;
      const said = execFileSync(
        'unshare',
        [
          ...UNSHARE,
          `mount -t tmpfs -o size=64k none ${folder} && cd ${folder} && exec ${process.execPath} --input-type=module -`,
        ],
        { input: script, encoding: 'utf8', stdio: ['pipe', 'pipe', 'ignore'] },
      );
      const { trouble, left, text } = JSON.parse(said);
      expect(trouble).toMatchObject({ code: 'file-not-written', where: 'a.pdf' });
      expect(trouble.what).toContain('the disk is full');
      expect(left).toEqual(['a.pdf']);
      expect(text).toBe('earlier');
    },
  );

  it.skipIf(isRoot)(
    `says that a folder may not be written to${isRoot ? ' (skipped: root may write everywhere)' : ''}`,
    async () => {
      chmodSync(folder, 0o500);
      const { what } = await troubleOfWriting(path.join(folder, 'a.pdf'));
      expect(what).toContain('this folder may not be written to');
    },
  );
});
