import { describe, expect, it } from 'vitest';
import { scpiFault } from '../../../core/scpi/scpi-fault.ts';
import { createConformingDevice } from '../../support/conforming-device.ts';

describe('commonCommands', () => {
  // The sets: SCPI-1999 vol. 1, 4.1.1 and 4.2.1, as j123b567/scpi-parser cites them.
  it('has every command that IEEE 488.2 and SCPI-1999 demand', () => {
    const { send, errors } = createConformingDevice();
    const demanded =
      '*CLS|*ESE 0|*ESE?|*ESR?|*IDN?|*OPC|*OPC?|*RST|*SRE 0|*SRE?|*STB?|*TST?|*WAI|SYST:ERR?|' +
      'SYST:ERR:NEXT?|SYST:ERR:COUN?|SYST:VERS?|STAT:OPER?|STAT:OPER:EVEN?|STAT:OPER:COND?|STAT:OPER:ENAB 0|' +
      'STAT:OPER:ENAB?|STAT:QUES?|STAT:QUES:EVEN?|STAT:QUES:COND?|STAT:QUES:ENAB 0|' +
      'STAT:QUES:ENAB?|STAT:PRES';
    for (const line of demanded.split('|')) {
      expect(send(`${line}\n`) !== '', line).toBe(line.endsWith('?'));
      expect(errors(), line).toEqual([]);
    }
  });

  // testIEEE4882 in test_parser.c of j123b567/scpi-parser at 886615902b27, line by line.
  it('reports a command error through its registers as the library does', () => {
    const { send } = createConformingDevice();
    const lines: [string, string][] = [
      ['*CLS', ''],
      ['*ESE #H20', ''],
      ['*ESE?', '32'],
      ['*ESR?', '0'],
      ['*IDN?', 'MA,IN,0,VER'],
      ['*OPC', ''],
      ['*OPC?', '1'],
      ['*SRE #HFF', ''],
      ['*SRE?', '255'],
      ['*STB?', '0'],
      ['*ESR?', '1'],
      ['ABCD', ''],
      ['*STB?', '100'],
      ['*ESR?', '32'],
      ['*STB?', '68'],
      ['*ESR?', '0'],
      ['SYST:ERR:COUNT?', '1'],
      ['SYST:ERR:NEXT?', '-113,"Undefined header"'],
      ['SYST:ERR:NEXT?', '0,"No error"'],
      ['*STB?', '0'],
    ];
    for (const [sent, answer] of lines) {
      expect(send(`${sent}\r\n`), sent).toBe(answer === '' ? '' : `${answer}\r\n`);
    }
  });

  it('adds the detail of an error after a semicolon where the device tells it', () => {
    const { send } = createConformingDevice([], { tellsDetail: true });
    send('ABCD\n');
    expect(send('SYST:ERR?\n')).toBe('-113,"Undefined header;ABCD"\r\n');
  });

  it('cuts an error text at 255 characters (SCPI-1999 vol. 2, 21.8.1)', () => {
    const { device, send } = createConformingDevice([], { tellsDetail: true });
    device.status.report(scpiFault(-113, 'x'.repeat(400)));
    expect(send('SYST:ERR?\n').length).toBe('-113,""\r\n'.length + 255);
  });

  it('overflows a queue of four as the library does', () => {
    const { device, send } = createConformingDevice([], { tellsDetail: true });
    for (const detail of ['Test1', '', '', 'Test4', 'Test5']) {
      device.status.report(scpiFault(-101, detail));
    }
    const answers = Array.from({ length: 5 }, () => send('SYST:ERR:NEXT?\r\n').trim());
    expect(answers).toEqual([
      '-101,"Invalid character;Test1"',
      '-101,"Invalid character"',
      '-101,"Invalid character"',
      '-350,"Queue overflow"',
      '0,"No error"',
    ]);
  });

  it('keeps the error queue over *RST and empties it with *CLS (IEEE 488.2, 10.3 and 10.32)', () => {
    let resets = 0;
    const { send } = createConformingDevice([], {
      reset: () => {
        resets += 1;
      },
    });
    send('ABCD\n*RST\n');
    expect(resets).toBe(1);
    expect(send('SYST:ERR:COUN?\n')).toBe('1\r\n');
    send('*CLS\n');
    expect(send('SYST:ERR?\n')).toBe('0,"No error"\r\n');
  });

  it('latches conditions that rose, sums enabled ones up, and clears events by reading', () => {
    const { device, send } = createConformingDevice();
    send('STAT:QUES:ENAB 2;:STAT:OPER:ENAB 1\n');
    device.status.observe('questionable', 2);
    device.status.observe('questionable', 0);
    expect(send('STAT:QUES:COND?;EVEN?;:STAT:QUES?\n')).toBe('0;2;0\r\n');
    device.status.observe('questionable', 2);
    device.status.observe('operation', 1);
    expect(send('*STB?\n')).toBe('136\r\n');
    send('STAT:PRES\n');
    expect(send('*STB?;:STAT:QUES:ENAB?\n')).toBe('0;0\r\n');
  });

  // Forms of 255: j123b567/scpi-parser at 886615902b27, test_parser.c.
  it('answers registers in the base that FORMat:SREGister chose', () => {
    const { send } = createConformingDevice();
    send('*SRE 255;:FORM:SREG HEX\n');
    expect(send('*SRE?;:FORM:SREG?\n')).toBe('#HFF;HEX\r\n');
    send('FORM:SREG OCT\n');
    expect(send('*SRE?\n')).toBe('#Q377\r\n');
    send('FORMAT:SREGISTER BINARY\n');
    expect(send('*SRE?\n')).toBe('#B11111111\r\n');
    send('FORM:SREG ASC\n');
    expect(send('*SRE?\n')).toBe('255\r\n');
  });

  it('tells by bit 4 that an answer waits (IEEE 488.2, 11.2.1.2)', () => {
    const { send } = createConformingDevice();
    expect(send('*STB?;*STB?\n')).toBe('0;16\r\n');
  });

  it('sets power on in the event register of a device that was just switched on', () => {
    const { send } = createConformingDevice([], { powerOnEvent: true });
    expect(send('*ESR?;*ESR?\n')).toBe('128;0\r\n');
  });
});
