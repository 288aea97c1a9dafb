import { describe, expect, it } from 'vitest';
import { createScanReader } from '../../../core/tags/scan-reader.ts';
import { tagCodeFrom } from '../../../core/tags/tag-code.ts';

const CODE = tagCodeFrom(0.42);
const WRONG = `${CODE.slice(0, 7)}${(Number(CODE.charAt(7)) + 1) % 10}`;

function press(keys: readonly string[], o: { everyMs: number; isTyping?: boolean }) {
  const read = createScanReader();
  return keys.map((key, i) =>
    read({ key, atMs: i * o.everyMs, isTyping: o.isTyping ?? false, hasModifier: false }),
  );
}

describe('the reader of scans', () => {
  it('takes a scan outside a field, all but its first digit, and Enter with it', () => {
    const answers = press([...CODE, 'Enter'], { everyMs: 4 });
    expect(answers.map(({ isTaken }) => isTaken)).toEqual([
      false,
      ...Array.from({ length: 8 }, () => true),
    ]);
    expect(answers[0]?.begins).toBe(true);
    expect(answers.at(-1)?.scanned).toBe(CODE);
  });

  it('leaves digits to a field and takes only the Enter of a code that fits', () => {
    const answers = press([...CODE, 'Enter'], { everyMs: 20, isTyping: true });
    expect(answers.map(({ isTaken }) => isTaken).slice(0, 8)).not.toContain(true);
    expect(answers.at(-1)).toEqual({ isTaken: true, begins: false, scanned: CODE });
    const wrong = press([...WRONG, 'Enter'], { everyMs: 20, isTyping: true });
    expect(wrong.at(-1)).toMatchObject({ isTaken: false, scanned: null });
  });

  it('hands on a wrong code outside a field, so that somebody says so', () => {
    expect(press([...WRONG, 'Enter'], { everyMs: 4 }).at(-1)?.scanned).toBe(WRONG);
  });

  it('is not taken in by hands', () => {
    for (const answer of press([...CODE, 'Enter'], { everyMs: 120 })) {
      expect(answer).toMatchObject({ isTaken: false, scanned: null });
    }
  });

  it('is not begun by digits that are keys of the sheet, nor by fewer or more digits', () => {
    expect(press([...'12345678', 'Enter'], { everyMs: 4 }).at(-1)?.scanned).toBeNull();
    expect(press([...CODE.slice(0, 7), 'Enter'], { everyMs: 4 }).at(-1)?.scanned).toBeNull();
    expect(press([...CODE, '1', 'Enter'], { everyMs: 4 }).at(-1)?.scanned).toBeNull();
    expect(press(['Enter'], { everyMs: 4 })[0]).toMatchObject({ isTaken: false });
  });
});
