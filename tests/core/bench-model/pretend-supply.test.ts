import { beforeEach, describe, expect, it } from 'vitest';
import { createPretendBench, type PretendBench } from '../../../core/bench-model/pretend-bench.ts';

let nowS: number;
let bench: PretendBench;
let heard: string;
beforeEach(() => {
  nowS = 0;
  bench = createPretendBench({ seed: 1, nowS: () => nowS, noiseScale: 0 });
  bench.supply.onBytes((bytes) => {
    heard += String.fromCharCode(...bytes);
  });
  send('*CLS');
});

function send(text: string): string {
  heard = '';
  bench.supply.receive(Uint8Array.from(`${text}\n`, (c) => c.charCodeAt(0)));
  return heard.replace(/\n$/, '');
}

// Lines: the header rules of SCPI-1999 vol. 1, 6.2, and values of IEEE 488.2 table 7-2.
describe('the pretend supply', () => {
  it('says who it is in four fields and changes nothing by being asked', () => {
    expect(send('*IDN?').split(',')).toHaveLength(4);
    expect(send('VOLT?;CURR?;:OUTP?')).toBe('0.000;1.000;0');
    expect(bench.log.map((entry) => entry.command)).toEqual(['*CLS']);
  });

  it.each([
    ['VOLT 3.3;CURR 0.5', 'VOLT?;CURR?', '3.300;0.500'],
    ['SOUR:VOLT 3.3;CURR 0.5', 'VOLT?;CURR?', '3.300;0.500'],
    ['VOLT 3300 mV', 'VOLT?', '3.300'],
    ['VOLT 3300MV', 'SOURCE:VOLTAGE:LEVEL:IMMEDIATE:AMPLITUDE?', '3.300'],
    ['CURR 500MA', 'CURR?', '0.500'],
    ['VOLT 3.3V;CURR 100MA;:OUTP ON', 'VOLT?;CURR?;:OUTP?', '3.300;0.100;1'],
    ['VOLT MAX', 'VOLT?', '60.000'],
    ['CURR MIN', 'CURR?', '0.000'],
    ['VOLT 5;VOLT DEF', 'VOLT?', '0.000'],
    ['OUTP1 ON', 'OUTP?', '1'],
    ['SOUR:VOLT 3.3;:OUTP ON', 'OUTPUT:STATE?', '1'],
    ['VOLT:PROT 21;PROT:STAT ON', 'VOLT:PROT?', '21.000'],
    ['CURR:LEV 3;PROT:STAT ON', 'CURR:PROT:STAT?', '1'],
    ['CURR:PROT 2.5', 'CURR:PROT:LEV?', '2.500'],
    ['VOLT 1.23456', 'VOLT?', '1.235'],
  ])('%s, then %s answers %s', (told, asked, answer) => {
    send(told);
    expect(send(asked)).toBe(answer);
    expect(send('SYST:ERR?')).toBe('0,"No error"');
  });

  it.each([
    ['VOLT 60.1', -222],
    ['VOLT -1', -222],
    ['CURR 11', -222],
    ['VOLT 5 HZ', -131],
    ['VOLT 1,2', -108],
    ['VOLT', -109],
    ['VOLT MAXI', -224],
    ['VOLT "5"', -104],
    ['OUTP MAYBE', -224],
    ['OUTP2 ON', -114],
    ['VOL 5', -113],
    ['MEAS:VOLT?;MEAS:CURR?', -113],
    ['MEAS:VOLT:DC?;CURR?', -113],
    ['CURR:LEV 3;CURR:PROT:STAT OFF', -113],
    ['FREQ uency 5', -103],
  ])('refuses %s with %d and keeps its settings', (told, error) => {
    const before = send('VOLT?;:OUTP?');
    send(told);
    expect(send('SYST:ERR?')).toMatch(new RegExp(`^${error},`));
    expect(send('VOLT?;:OUTP?')).toBe(before);
  });

  it('takes the list of its only channel in a measurement and refuses another', () => {
    expect(send('MEAS:VOLT? (@1)')).toBe('0.000');
    expect(send('MEAS:CURR? (@1,2:3)')).toBe('');
    expect(send('SYST:ERR?')).toMatch(/^-222,/);
    expect(send('MEAS:CURR? (1)')).toBe('');
    expect(send('SYST:ERR?')).toMatch(/^-170,/);
  });

  it('asks for the limits of a setting', () => {
    expect(send('VOLT? MAX;:VOLT? MIN;:CURR? MAXimum')).toBe('60.000;0.000;10.000');
  });

  it('answers a measurement and a set-point under the same word by their path', () => {
    send('CURR 0.7');
    expect(send('MEAS:VOLT?;:CURR?')).toBe('0.000;0.700');
    expect(send('MEAS:VOLT?;CURR?')).toBe('0.000;0.000');
    expect(send('MEAS:VOLT?;*OPC?;CURR?')).toBe('0.000;1;0.000');
  });

  it('reads what it gives, and its product', () => {
    send('VOLT 12;CURR 1;:OUTP ON');
    nowS = 1;
    expect(send('MEAS:VOLT?;CURR?;POW?')).toBe('12.000;0.000;0.000');
    bench.putBoard('tern-input-short');
    nowS = 2;
    const [volts, amps, watts] = send('MEAS:VOLT?;CURR?;POW?').split(';').map(Number);
    expect(amps).toBe(1);
    expect(watts).toBeCloseTo(volts! * amps!, 3);
  });

  it('tells constant current as 1, constant voltage as 2 and off as 0', () => {
    bench.putBoard('tern-input-short');
    expect(send('STAT:QUES:COND?')).toBe('0');
    send('VOLT 19;CURR 2;:OUTP ON');
    nowS = 1;
    expect(send('STAT:QUES:COND?')).toBe('1');
    send('OUTP OFF');
    bench.putBoard(null);
    send('OUTP ON');
    nowS = 2;
    expect(send('STAT:QUES:COND?')).toBe('2');
    expect(Number(send('STAT:QUES?')) & 1).toBe(1);
  });

  it('trips on over-voltage, tells it, and switches on again only once cleared', () => {
    send('VOLT:PROT 10;PROT:STAT ON;:VOLT 12;:OUTP ON');
    nowS = 0.5;
    expect(send('OUTP?;:VOLT:PROT:TRIP?;:STAT:QUES:COND?')).toBe('0;1;512');
    send('OUTP ON');
    expect(send('SYST:ERR?;:OUTP?')).toBe('-221,"Settings conflict";0');
    send('VOLT:PROT:CLE;:VOLT 5;:OUTP ON');
    nowS = 1;
    expect(send('OUTP?;:VOLT:PROT:TRIP?;:STAT:QUES:COND?')).toBe('1;0;2');
  });

  it('trips on over-current after its delay', () => {
    bench.putBoard('tern-input-short');
    send('CURR:PROT:STAT ON;DEL 0.2;:VOLT 19;CURR 2;:OUTP ON');
    nowS = 0.1;
    expect(send('OUTP?')).toBe('1');
    nowS = 0.3;
    expect(send('OUTP?;:CURR:PROT:TRIP?;:STAT:QUES:COND?')).toBe('0;1;1024');
  });

  it('goes to its reset state with *RST: output off, 0 V, 1 A', () => {
    send('VOLT 5;CURR 3;:OUTP ON;:VOLT:PROT:STAT ON');
    send('*RST');
    expect(send('VOLT?;CURR?;:OUTP?;:VOLT:PROT:STAT?')).toBe('0.000;1.000;0;0');
  });

  it('takes remote and local without a word', () => {
    send('SYST:REM');
    send('SYST:LOC');
    expect(send('SYST:ERR?')).toBe('0,"No error"');
  });
});
