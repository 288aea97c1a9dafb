import { describe, expect, it } from 'vitest';
import { lexMessage } from '../../../core/scpi/lex-message.ts';

const shape = (text: string) =>
  lexMessage(text).map(({ header, isQuery, parameters, fault }) => ({
    header: header + (isQuery ? '?' : ''),
    parameters: parameters.length,
    fault: fault?.fault ?? 0,
  }));

// Expected readings: j123b567/scpi-parser at 886615902b27, libscpi/test/test_lexer_parser.c,
// where a fault's number is given by SCPI-1999 vol. 2, 21.8.
describe('lexMessage', () => {
  it.each([
    ['*IDN?', '*IDN?', 0],
    [' MEAS:VOLT:DC?', 'MEAS:VOLT:DC?', 0],
    [' MEAS:VOLT:DC? 1.2 V', 'MEAS:VOLT:DC?', 1],
    [' CONF:VOLT:DC 1.2 V, 100mv;', 'CONF:VOLT:DC', 2],
    [':meas', ':meas', 0],
    ['A 1.5E12 V, abc_213as564, 10, #H123fe5A', 'A', 4],
    ['A  ( 1 + 2 ) ,#12\r\n, 1.5E12 V', 'A', 3],
    ['A "ahoj" , #12AB', 'A', 2],
  ])('reads %j', (text, header, parameters) => {
    expect(shape(text)).toEqual([{ header, parameters, fault: 0 }]);
  });

  it.each([
    [' CONF:VOLT:DC 1.2 V, ', -102],
    [':MEAS::VOLT:DC?', -111],
    ['MEAS::VOLT?', -111],
    [':*IDN?', -110],
    ['*?', -110],
    ['*', -110],
    ['[', -101],
    [']]', -101],
    ['FREQ uency 5', -103],
    ['VOLT5', 0],
    ['VOLT"5"', -111],
    ['ABCDEFGHIJKLM 1', -112],
  ])('reads %j with fault %d', (text, fault) => {
    expect(shape(text)[0]?.fault).toBe(fault);
  });

  it('goes on with the next unit after one that it could not read', () => {
    expect(shape('[;*IDN?;A 1,;B').map((unit) => unit.fault)).toEqual([-101, 0, -102, 0]);
  });

  it('leaves out empty units', () => {
    expect(shape(';;*IDN?; ;').map((unit) => unit.header)).toEqual(['*IDN?']);
  });

  it('keeps a semicolon inside a string or a block in its parameter', () => {
    const units = lexMessage(`A "x;y";B 'p;q';C #13a;b;D`);
    expect(units.map((unit) => unit.header)).toEqual(['A', 'B', 'C', 'D']);
    expect(units.map((unit) => unit.parameters[0])).toEqual([
      { kind: 'string', text: 'x;y' },
      { kind: 'string', text: 'p;q' },
      { kind: 'block', text: 'a;b' },
      undefined,
    ]);
  });
});
