import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readNumber } from '../../../core/scpi/read-parameter.ts';
import type { ScpiCommand } from '../../../core/scpi/scpi-command.ts';
import { isFault, scpiFault } from '../../../core/scpi/scpi-fault.ts';
import { createConformingDevice } from '../../support/conforming-device.ts';

// The test device and its pairs: j123b567/scpi-parser at 886615902b27, libscpi/test/test_parser.c.
describe('a conforming device', () => {
  it.each([
    ['*IDN?\r\n', 'MA,IN,0,VER\r\n'],
    ['*IDN?\r\n*IDN?\r\n', 'MA,IN,0,VER\r\nMA,IN,0,VER\r\n'],
    ['*IDN?;*IDN?;*IDN?;*IDN?\r\n', 'MA,IN,0,VER;MA,IN,0,VER;MA,IN,0,VER;MA,IN,0,VER\r\n'],
    ['*IDN?;*IDN?;*IDN?\n', 'MA,IN,0,VER;MA,IN,0,VER;MA,IN,0,VER\r\n'],
    ['*IDN?;STUB\r\n', 'MA,IN,0,VER\r\n'],
    ['*IDN?;*OPC;*IDN?\r\n', 'MA,IN,0,VER;MA,IN,0,VER\r\n'],
    [';*IDN?\r\n', 'MA,IN,0,VER\r\n'],
    ['TEST:TREEA?;TREEB?\r\n', '10;20\r\n'],
    ['TEST:TREEA?;:TEXT? "PARAM1", "PARAM2"\r\n', '10;"PARAM2"\r\n'],
    ['TEXT? "", "test\r\n"\r\n', '"test\r\n"\r\n'],
    ['*OPC?\r\n', '1\r\n'],
    ['*TST?\r\n', '0\r\n'],
    ['SYSTem:VERSion?\r\n', '1999.0\r\n'],
    ['\r\n\r\n \r\n', ''],
  ])('answers %j with %j and no error', (sent, answer) => {
    const { send, errors } = createConformingDevice();
    expect(send(sent)).toBe(answer);
    expect(errors()).toEqual([]);
  });

  it('answers only after the terminator', () => {
    const { send } = createConformingDevice();
    expect(send('*ID')).toBe('');
    expect(send('N?')).toBe('');
    expect(send('\r\n')).toBe('MA,IN,0,VER\r\n');
  });

  it.each([
    ['IDN?\r\n', '', -113],
    ['*ESE\r\n', '', -109],
    ['*SRE\r\n', '', -109],
    ['*IDN? 12\r\n', 'MA,IN,0,VER\r\n', -108],
    ['*ESE 1,2\r\n', '', -108],
    ['*ESE 256\r\n', '', -222],
    ['*ESE abcd\r\n', '', -104],
    ['A'.repeat(300), '', -363],
    [':*IDN?\r\n', '', -110],
    ['MEAS::VOLT?\r\n', '', -111],
    ['MEASU:VOLT?\r\n', '', -113],
    ['MEASUR:VOLT?\r\n', '', -113],
    ['TEXT? "a"\r\n', '', -109],
    ['TEXT? "a", b\r\n', '', -104],
    ['TEXT? "a", "\xFA"\r\n', '', -151],
  ])('answers %j with %j and error %d', (sent, answer, error) => {
    const { send, errors } = createConformingDevice();
    expect(send(sent)).toBe(answer);
    expect(errors()).toEqual([error]);
  });

  it('keeps the path over a common command (SCPI-1999 vol. 1, 6.2.4)', () => {
    const { send, errors } = createConformingDevice();
    expect(send('TEST:TREEA?;*OPC?;TREEB?\n')).toBe('10;1;20\r\n');
    expect(errors()).toEqual([]);
  });

  it('takes a block that holds terminators and semicolons as one parameter', () => {
    const { send, errors, done } = createConformingDevice();
    expect(send('SAM #18\r\n;"\n\'\x00\xFF\n*IDN?\n')).toBe('MA,IN,0,VER\r\n');
    expect(done).toEqual(['SAM #18\r\n;"\n\'\x00\xFF']);
    send('SAM "ABCD"\n');
    expect(errors()).toEqual([-104]);
  });

  it('forgets the path at the end of a message', () => {
    const { send, errors } = createConformingDevice();
    expect(send('TEST:TREEA?\nTREEB?\n')).toBe('10\r\n');
    expect(errors()).toEqual([-113]);
  });

  it('does not carry out a setting that has too many parameters', () => {
    const { send, done } = createConformingDevice();
    send('*ESE 4\n*ESE 8,9\n');
    expect(send('*ESE?\n')).toBe('4\r\n');
    expect(done).toEqual(['*ESE 4']);
  });

  it('carries out what follows a faulty unit in the same message', () => {
    const { send, errors } = createConformingDevice();
    expect(send('NONE;*IDN?\n')).toBe('MA,IN,0,VER\r\n');
    expect(errors()).toEqual([-113]);
  });

  it('refuses a numeric suffix that it does not have with -114', () => {
    const output: ScpiCommand = { pattern: 'OUTPut#', highestSuffixes: [2], run: () => undefined };
    const { send, errors, done } = createConformingDevice([output]);
    send('OUTP\nOUTP1\nOUTP2\nOUTP3\nOUTP0\n');
    expect(done).toEqual(['OUTP', 'OUTP1', 'OUTP2']);
    expect(errors()).toEqual([-114, -114]);
  });

  it('reports what a command itself refuses', () => {
    const level: ScpiCommand = {
      pattern: 'LEVel',
      takes: [1, 1],
      run: ({ parameters }) => {
        const value = readNumber(parameters[0]!, { unit: 'V', max: 5 });
        return isFault(value) ? value : value === 3 ? scpiFault(-221) : undefined;
      },
    };
    const { send, errors } = createConformingDevice([level]);
    send('LEV 4V\nLEV 6\nLEV 3\nLEV 1 HZ\n');
    expect(errors()).toEqual([-222, -221, -131]);
  });

  it('never throws and never stays deaf, whatever bytes it gets', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 80 }), { maxLength: 8 }), (pieces) => {
        const { device, send } = createConformingDevice();
        for (const piece of pieces) device.receive(piece);
        // A quote or a block may be open: what closes both is running the buffer over.
        send(`${'"'.repeat(300)}\n${"'".repeat(300)}\n`);
        send('\n');
        expect(send('*CLS;*IDN?\n')).toBe('MA,IN,0,VER\r\n');
      }),
      { numRuns: 300 },
    );
  });

  it('never throws on messages made of SCPI’s own characters', () => {
    const letters = fc.constantFrom(
      ...'*:;?,#"\'()@.+-eE0123456789AVmHQB \t'.split(''),
      'VOLT',
      '*ESE',
    );
    fc.assert(
      fc.property(fc.array(letters, { maxLength: 60 }), (parts) => {
        const { send } = createConformingDevice();
        expect(() => send(`${parts.join('')}\n`)).not.toThrow();
      }),
      { numRuns: 500 },
    );
  });
});
