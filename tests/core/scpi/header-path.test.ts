import { describe, expect, it } from 'vitest';
import { resolveHeader } from '../../../core/scpi/header-path.ts';
import { lexMessage } from '../../../core/scpi/lex-message.ts';

/** The full headers that a message asks for. */
function read(message: string): string[] {
  let path = '';
  return lexMessage(message).map((unit) => {
    const resolved = resolveHeader(unit.header, path);
    path = resolved.path;
    return resolved.header + (unit.isQuery ? '?' : '');
  });
}

// Lines and readings: the header-path rule of SCPI-1999 vol. 1, 6.2.4, as quoted by instrument
// programming guides, and the composeCompoundCommand tests of j123b567/scpi-parser.
describe('resolveHeader', () => {
  it.each([
    ['MEAS:VOLT?;CURR?', ['MEAS:VOLT?', 'MEAS:CURR?']],
    ['MEAS:VOLT?;:CURR?', ['MEAS:VOLT?', 'CURR?']],
    ['MEAS:VOLT?;:MEAS:CURR?', ['MEAS:VOLT?', 'MEAS:CURR?']],
    ['MEAS:VOLT?;MEAS:CURR?', ['MEAS:VOLT?', 'MEAS:MEAS:CURR?']],
    ['MEAS:VOLT:DC?;CURR?', ['MEAS:VOLT:DC?', 'MEAS:VOLT:CURR?']],
    ['MEAS:VOLT?;*OPC?;CURR?', ['MEAS:VOLT?', '*OPC?', 'MEAS:CURR?']],
    ['STAT:OPER?;PRES', ['STAT:OPER?', 'STAT:PRES']],
    ['STAT:OPER:COND?;ENAB 16', ['STAT:OPER:COND?', 'STAT:OPER:ENAB']],
    ['TRIG:SOUR EXT;COUNT 10', ['TRIG:SOUR', 'TRIG:COUNT']],
    ['TRIG:COUN MIN;:SAMP:COUN MIN', ['TRIG:COUN', 'SAMP:COUN']],
    ['CURR:LEV 3;PROT:STAT OFF', ['CURR:LEV', 'CURR:PROT:STAT']],
    ['CURR:LEV 3;CURR:PROT:STAT OFF', ['CURR:LEV', 'CURR:CURR:PROT:STAT']],
    [':DISP:FORM DIG;RES 2', ['DISP:FORM', 'DISP:RES']],
    [':ROUT:CONN:RULE ALL,FREE;SEQ ALL,BBM', ['ROUT:CONN:RULE', 'ROUT:CONN:SEQ']],
    ['A:B;C', ['A:B', 'A:C']],
    ['A:B;C:D', ['A:B', 'A:C:D']],
    ['A:B;DD', ['A:B', 'A:DD']],
    [':A:B;C', ['A:B', 'A:C']],
    [':A;C', ['A', 'C']],
    ['B;C', ['B', 'C']],
    ['A:B;:C', ['A:B', 'C']],
    ['A:B;*IDN?', ['A:B', '*IDN?']],
    ['*IDN? ; ABC', ['*IDN?', 'ABC']],
    ['VOLT 3.3;CURR 0.5', ['VOLT', 'CURR']],
    ['SOUR:VOLT 3.3;CURR 0.5', ['SOUR:VOLT', 'SOUR:CURR']],
    ['SOUR:VOLT 3.3;:OUTP ON', ['SOUR:VOLT', 'OUTP']],
    [
      'CALibration1:ZERO:TYPE EXTernal;ZERO:AUTO ONCE',
      ['CALibration1:ZERO:TYPE', 'CALibration1:ZERO:ZERO:AUTO'],
    ],
  ])('reads %j', (message, headers) => {
    expect(read(message)).toEqual(headers);
  });
});
