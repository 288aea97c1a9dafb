import { describe, expect, it } from 'vitest';
import { headerPattern, isForm, matchHeader } from '../../../core/scpi/header-pattern.ts';

/** Matches as the device does: the query mark decides first, then the words. */
function suffixes(declared: string, sent: string): number[] | null {
  const pattern = headerPattern(declared);
  if (pattern.isQuery !== sent.endsWith('?')) return null;
  return matchHeader(pattern, sent.replace(/\?$/, '').replace(/^:/, ''));
}
const matches = (declared: string, sent: string) => suffixes(declared, sent) !== null;

// Pairs: j123b567/scpi-parser at 886615902b27, libscpi/test/test_scpi_utils.c.
describe('matchHeader', () => {
  const current = 'MEASure[:SCALar]:CURRent[:DC]?';
  it.each([
    [current, 'MEAS:CURR?', true],
    [current, ':MEAS:CURR?', true],
    [current, 'MEAS:SCAL:CURR:DC?', true],
    [current, 'measure:scalar:current?', true],
    [current, 'MEAS?', false],
    [current, 'MEAS:DC?', false],
    [current, 'MEAS:CURR', false],
    ['MEASure[:SCALar]:VOLTage[:DC]?', 'measure:voltage?', true],
    ['MEASure[:SCALar]:VOLTage[:DC]?', ':meas:scal:volt:dc?', true],
    ['*IDN?', '*idn?', true],
    ['*IDN?', 'idn?', false],
    ['ABcc:BCCdddd[:CDEFGeeeee]?', 'ab:bcc?', true],
    ['ABcc:BCCdddd[:CDEFGeeeee]?', 'ab:bcc', false],
    ['ABcc:BCCdddd[:CDEFGeeeee]?', 'abcc:bccdddd:cdefg?', true],
  ])('%s against %s: %s', (declared, sent, matching) => {
    expect(matches(declared, sent)).toBe(matching);
  });

  // Short forms: SCPI-1999 vol. 1, 6.2.1, as instrument programming guides quote it.
  it.each([
    ['VOLTage', ['VOLT', 'VOLTAGE', 'VolTaGe', 'volt'], ['VOL', 'VOLTAG', 'VOLTA']],
    ['IMMediate', ['IMM', 'IMMEDIATE'], ['IMME']],
    ['FORMat', ['FORM', 'FORMAT'], ['FORMA']],
    ['OUTPut', ['OUTP', 'OUTPUT'], ['OUT']],
    ['DELay', ['DEL', 'DELAY'], ['DELA']],
    ['AUTO', ['AUTO'], ['AUT']],
    ['TYPE', ['TYPE'], ['TYP']],
    ['RANGe', ['RANG', 'RANGE'], ['RAN']],
    ['PATTern', ['PATT', 'PATTERN'], ['PAT']],
    ['TIMebase', ['TIM', 'TIMEBASE'], ['TIME']],
    ['POLynomial', ['POL', 'POLYNOMIAL'], ['POLY']],
    ['SYSTem:PRESet', ['SYST:PRES', 'SYSTEM:PRESET', 'SYST:PRESET'], ['SYSTe:PRESe']],
    ['LAYer2', ['LAY2', 'LAYER2'], ['LAY', 'LAYER']],
    ['POWer', ['POW', 'POWER'], ['POWE']],
    ['ATTenuation', ['ATT', 'ATTENUATION'], ['ATTE']],
    ['TCouple', ['TC', 'TCOUPLE'], ['TCO']],
    ['NTRansition', ['NTR', 'NTRANSITION'], ['NTRA']],
    ['CURRent', ['CURR'], ['CUR']],
    ['MEASure', ['MEAS'], ['MEASU', 'MEASUR']],
    ['RESistance', ['RES'], ['RESI']],
    ['SOURce', ['SOUR'], ['SOU']],
    ['STATus', ['STAT'], ['STA']],
    ['QUEStionable', ['QUES'], ['QUE']],
    ['CONDition', ['COND'], ['CON']],
    ['FREQuency', ['FREQ'], ['FRE']],
  ])('%s is exactly its short or its long form', (declared, good, bad) => {
    for (const sent of good) expect(matches(declared, sent), sent).toBe(true);
    for (const sent of bad) expect(matches(declared, sent), sent).toBe(false);
  });

  it('reads numeric suffixes, 1 where none was sent', () => {
    const fm = 'OUTPut#:MODulation#:FM#';
    expect(suffixes(fm, 'outp3:mod10:fm')).toEqual([3, 10, 1]);
    expect(suffixes(fm, 'outp1:mod10a:fm')).toBeNull();
    expect(suffixes('TRIGger#', 'TRIG')).toEqual(suffixes('TRIGger#', 'TRIG1'));
  });

  it('reads a numbered word that was left out as 1', () => {
    const maximize = 'DISPlay[:WINDow#]:MAXimize';
    expect(suffixes(maximize, 'DISP:MAX')).toEqual([1]);
    expect(suffixes(maximize, 'DISP:WIND2:MAX')).toEqual([2]);
  });
});

describe('isForm', () => {
  it('takes MIN and MAXIMUM but not MAXI (j123b567/scpi-parser, test_parser.c)', () => {
    expect(isForm('MINimum', 'min')).toBe(true);
    expect(isForm('MAXimum', 'maximum')).toBe(true);
    expect(isForm('MAXimum', 'MAXI')).toBe(false);
    expect(isForm('MINimum', 'minc')).toBe(false);
  });
});
