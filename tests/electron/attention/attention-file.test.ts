import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { USUAL_ATTENTION } from '../../../core/attention/attention-settings.ts';
import { keepAttention, readAttention } from '../../../electron/attention/attention-file.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const file = path.join(tempFolder('attention'), 'attention.json');

describe('what calls attention', () => {
  it('is kept from one start to the next', () => {
    expect(readAttention(file)).toEqual(USUAL_ATTENTION);
    keepAttention(file, { ...USUAL_ATTENTION, speak: true, follow: 'ohms' });
    expect(readAttention(file)).toMatchObject({ speak: true, follow: 'ohms', toneTaken: true });
  });

  it('is as usual where a file says nothing or nonsense', () => {
    writeFileSync(file, '{"toneStage":false}');
    expect(readAttention(file)).toEqual({ ...USUAL_ATTENTION, toneStage: false });
    for (const text of ['{"follow":"moon"}', '[]', 'no json']) {
      writeFileSync(file, text);
      expect(readAttention(file)).toEqual(USUAL_ATTENTION);
    }
  });
});
