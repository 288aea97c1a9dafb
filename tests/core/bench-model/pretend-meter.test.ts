import { beforeEach, describe, expect, it } from 'vitest';
import { createPretendBench, type PretendBench } from '../../../core/bench-model/pretend-bench.ts';

let nowS: number;
let bench: PretendBench;
let heard: string;
beforeEach(() => {
  nowS = 0;
  bench = createPretendBench({ seed: 1, nowS: () => nowS, noiseScale: 0 });
  bench.meter.onBytes((bytes) => {
    heard += String.fromCharCode(...bytes);
  });
});

function send(text: string): string {
  heard = '';
  bench.meter.receive(Uint8Array.from(`${text}\n`, (c) => c.charCodeAt(0)));
  return heard.replace(/\r\n$/, '');
}

function power(key: string, volts: number, amps: number, forS: number): void {
  bench.putBoard(key);
  const line = `VOLT ${volts};CURR ${amps};:OUTP ON\n`;
  bench.supply.receive(Uint8Array.from(line, (c) => c.charCodeAt(0)));
  nowS += forS;
  bench.advanceTo(nowS);
}

describe('the pretend meter', () => {
  it('reads volts at the point it touches, in NR3', () => {
    power('tern-healthy', 19, 2.5, 1);
    bench.probe('MAIN_8V6');
    expect(send('MEAS:VOLT:DC?')).toMatch(/^\+8\.\d{8}E\+00$/);
    expect(Number(send('READ?'))).toBeCloseTo(8.6, 1);
    bench.probe('SYS_5V');
    expect(Number(send('READ?'))).toBeCloseTo(0, 3);
    bench.probe(null);
    expect(Number(send('READ?'))).toBe(0);
  });

  it('reads both sides of a fuse, and tells a molten one', () => {
    power('tern-input-short', 19, 10, 2);
    bench.probe('F1 connector side');
    expect(Number(send('MEAS:VOLT?'))).toBeCloseTo(19, 1);
    bench.probe('F1 board side');
    expect(Number(send('MEAS:VOLT?'))).toBeCloseTo(0, 1);
  });

  it('reads resistance to ground with and without its leads', () => {
    bench.putBoard('tern-main-short');
    bench.probe('MAIN_8V6');
    // 2.1 ohm beside the 8200 ohm of the board.
    const parallel = 1 / (1 / 2.1 + 1 / 8200);
    expect(Number(send('MEAS:FRES?'))).toBeCloseTo(parallel, 3);
    expect(Number(send('MEAS:RES?'))).toBeCloseTo(parallel + 0.14, 3);
    bench.replacePart('C112');
    expect(Number(send('MEAS:RES?'))).toBeCloseTo(8200, -1);
  });

  it('reads a core of a few ohms as nothing in diode mode, as a meter does', () => {
    bench.putBoard('tern-healthy');
    bench.probe('CORE_0V9');
    expect(Number(send('MEAS:DIOD?'))).toBeLessThan(0.01);
    bench.probe('MAIN_8V6');
    expect(Number(send('MEAS:DIOD?'))).toBeGreaterThan(0.3);
    expect(Number(send('MEAS:DIOD?'))).toBeLessThan(0.7);
  });

  it('overloads with 9.9E37 in the air: ohms, diode and continuity (SCPI-1999 vol. 1, 7.2.1.4)', () => {
    for (const what of ['RES', 'FRES', 'DIOD', 'CONT']) {
      expect(send(`MEAS:${what}?`), what).toBe('+9.90000000E+37');
    }
  });

  it('overloads in continuity above its range and reads a short there', () => {
    bench.putBoard('tern-healthy');
    bench.probe('MAIN_8V6');
    expect(send('MEAS:CONT?')).toBe('+9.90000000E+37');
    bench.probe('GND');
    expect(Number(send('MEAS:CONT?'))).toBeCloseTo(0.14, 3);
  });

  it('gives nonsense or overload for ohms and diode on a powered rail', () => {
    power('tern-healthy', 19, 2.5, 1);
    bench.probe('MAIN_8V6');
    expect(Number(send('MEAS:RES?'))).toBeGreaterThan(50_000);
    bench.probe('F1 board side');
    expect(send('MEAS:DIOD?')).toBe('+9.90000000E+37');
  });

  it('keeps its function for READ? and says which it is', () => {
    send('CONF:RES');
    expect(send('FUNC?;:CONF?')).toBe('"RES";"RES"');
    expect(send('READ?')).toBe('+9.90000000E+37');
    send('SENS:FUNC "VOLT:DC"');
    expect(send('SENS:FUNC?')).toBe('"VOLT"');
    expect(Number(send('READ?'))).toBe(0);
    expect(send('SYST:ERR?')).toBe('0,"No error"');
  });

  it('answers FETC? with the last reading, and with nothing but -230 when there is none', () => {
    send('*CLS;:CONF:VOLT:DC');
    expect(send('FETC?')).toBe('');
    expect(send('SYST:ERR?')).toBe('-230,"Data corrupt or stale"');
    const read = send('READ?');
    expect(send('FETC?')).toBe(read);
    send('CONF:RES');
    expect(send('FETC?')).toBe('');
  });

  it('answers a block of one double when told to (SCPI-1999 vol. 2, FORMat)', () => {
    send('*CLS;:FORM REAL,64');
    expect(send('FORM?')).toBe('REAL,64');
    power('tern-healthy', 19, 2.5, 1);
    bench.probe('MAIN_8V6');
    const block = send('READ?');
    expect(block.slice(0, 3)).toBe('#18');
    const view = new DataView(Uint8Array.from(block.slice(3), (c) => c.charCodeAt(0)).buffer);
    expect(view.getFloat64(0)).toBeCloseTo(8.6, 1);
    send('FORM REAL,32');
    expect(send('SYST:ERR?')).toMatch(/^-224,/);
    send('*RST');
    expect(send('FETC?;:FORM?')).toBe('ASC');
  });

  it('takes a range with its unit and refuses a wrong one without changing function', () => {
    send('*CLS;:CONF:VOLT:DC 10 V, 0.001');
    expect(send('CONF?')).toBe('"VOLT 10,0.001"');
    send('CONF:RES 1 KOHM');
    expect(send('CONF?')).toBe('"RES 1000"');
    send('CONF:VOLT 1 HZ');
    expect(send('FUNC?')).toBe('"RES"');
    expect(send('SYST:ERR?')).toMatch(/^-131,/);
    send('FUNC "FREQ"');
    expect(send('SYST:ERR?')).toMatch(/^-224,/);
  });
});
