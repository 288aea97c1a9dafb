import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recordFileName } from '../../../core/record/record-file-name.ts';

const named = (serialNumber: string) => recordFileName({ number: 42, serialNumber });

describe('recordFileName', () => {
  it.each([
    ['TH1-000731', 'Job 42 TH1-000731 record.pdf'],
    ['', 'Job 42 record.pdf'],
    ['  ', 'Job 42 record.pdf'],
    ['../../etc/passwd', 'Job 42 etc-passwd record.pdf'],
    ['a<b>:"|?*\\c', 'Job 42 a-b-------c record.pdf'],
    ['лист 7', 'Job 42 лист 7 record.pdf'],
    ['x\u202egnp.exe', 'Job 42 x gnp.exe record.pdf'],
    ['a\u0000b\nc', 'Job 42 a b c record.pdf'],
  ])('names the record of serial number %j %j', (serial, name) => {
    expect(named(serial)).toBe(name);
  });

  // Microsoft's "Naming Files, Paths, and Namespaces": reserved characters, and no trailing dot
  // or space (from memory).
  it('is a name that every file system takes, whatever the serial number', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (serial) => {
        const name = named(serial);
        expect(name).not.toMatch(/[<>:"/\\|?*\p{Cc}\p{Cf}]/u);
        expect(name).toMatch(/^Job 42 .*record\.pdf$/);
        expect([...name].length).toBeLessThanOrEqual(80);
        expect(new TextEncoder().encode(name).length).toBeLessThanOrEqual(255);
        expect(name).not.toContain('..');
      }),
    );
  });
});
