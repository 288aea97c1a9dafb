import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { createTraceFileReader } from '../../../core/trace/csv-read.ts';
import { readTraceText, rowsOf, troubleWith } from './read-trace-text.ts';

describe('createTraceFileReader finds the layout', () => {
  it('reads plain columns time, volts, amps', () => {
    expect(rowsOf('time,volts,amps\n0,12,0.1\n0.05,12.001,0.2\n')).toEqual([
      [0, 12, 0.1],
      [500, 12.001, 0.2],
    ]);
  });

  it('reads units from the headings, in brackets, behind a slash, an underscore or a blank', () => {
    const expected = [
      [0, 12.003, 0.019],
      [500, 12.001, 0.2315],
    ];
    for (const header of [
      'Time (ms),Voltage (mV),Current (mA)',
      't/ms,U/mV,I/mA',
      'time_ms,voltage_mV,current_mA',
      'Time [ms],V_out [mV],I_out [mA]',
      'Milliseconds,mV,mA',
      'elapsed ms,Voltage mV,Current mA',
    ]) {
      expect(rowsOf(`${header}\n100,12003,19\n150,12001,231.5\n`)).toEqual(expected);
    }
  });

  it('reads microamps, also where a code page has eaten the micro sign', () => {
    for (const unit of ['µA', '\u03bcA', 'uA', '\ufffdA']) {
      expect(rowsOf(`s,${unit}\n0,250\n1,1500\n`)).toEqual([
        [0, null, 0.00025],
        [10_000, null, 0.0015],
      ]);
    }
  });

  it('reads units from a row of their own', () => {
    expect(rowsOf('Time,Voltage,Current\n(ms),(V),(mA)\n0,5,10\n20,5,11\n')).toEqual([
      [0, 5, 0.01],
      [200, 5, 0.011],
    ]);
    expect(rowsOf('x-axis,1,2\nsecond,Volt,Ampere\n-5.0E-01,1.0,0.2\n-4.0E-01,1.0,0.3\n')).toEqual([
      [0, 1, 0.2],
      [1000, 1, 0.3],
    ]);
  });

  it('reads units glued to the numbers, changing from row to row', () => {
    expect(rowsOf('Time,U,I\n0 s,12.003V,950.1mA\n500 ms,-0.006V,1.02 A\n')).toEqual([
      [0, 12.003, 0.9501],
      [5000, -0.006, 1.02],
    ]);
  });

  it('reads semicolons with decimal commas, and a byte order mark', () => {
    expect(rowsOf('\ufeffZeit (s);Spannung (V);Strom (A)\r\n0,00;12,003;0,019\r\n')).toEqual([
      [0, 12.003, 0.019],
    ]);
    expect(rowsOf('t;U;I\n0;1.012,5;0,1\n1;1.012,5;0,1\n')[0]).toEqual([0, 1012.5, 0.1]);
  });

  it('reads tabs, bars and columns of blanks', () => {
    const expected = [
      [0, 12, 0.1],
      [500, 12, 0.25],
    ];
    expect(rowsOf('time\tvolts\tamps\n0\t12\t0.1\n0.05\t12\t0.25\n')).toEqual(expected);
    expect(rowsOf('time|volts|amps\n0|12|0.1\n0.05|12|0.25\n')).toEqual(expected);
    expect(rowsOf('Time (s)  Voltage (V)  Current (A)\n0.00  12  0.1\n0.05  12  0.25\n')).toEqual(
      expected,
    );
    expect(rowsOf('time  volts  amps\n0,00  12,0  0,10\n0,05  12,0  0,25\n')).toEqual(expected);
  });

  it('reads quoted fields by RFC 4180, decimal commas inside them too', () => {
    expect(rowsOf('"time","volts, main","amps"\n"0","12","0.1"\n"1","12","0.2"\n')).toEqual([
      [0, 12, 0.1],
      [10_000, 12, 0.2],
    ]);
    expect(rowsOf('"time","volts","amps"\n"0,5","12,0","0,1"\n"0,6","12,0","0,1"\n')).toEqual([
      [0, 12, 0.1],
      [1000, 12, 0.1],
    ]);
  });

  it('takes the measured columns and not set-points, limits, charge, energy or other channels', () => {
    const header = 'Time,Set V,Set Current,OVP,Voltage,Current,Power,mAh,Wh,CH2 Voltage,Temp (C)';
    const { read, layout } = readTraceText(
      `${header}\n0,5,3,6,4.99,0.2,0.998,1,2,12,25\n1,5,3,6,4.98,0.3,1.494,1,2,12,25\n`,
    );
    expect(read[1]).toMatchObject({ volts: 4.98, amps: 0.3 });
    expect(layout.notes.join()).toContain('2 columns look like volts');
  });

  it('tells a reading from its set-point in brackets, and the output of a supply from its input', () => {
    expect(rowsOf('Time,Voltage (set),Voltage,Current (limit),Current\n0,5,4.9,1,0.1\n')).toEqual([
      [0, 4.9, 0.1],
    ]);
    expect(rowsOf('Time(s),VIN(V),IIN(A),VOUT(V),IOUT(A)\n0,19,1,5,0.2\n')).toEqual([[0, 5, 0.2]]);
  });

  it('prefers a mean to an extreme of the same quantity', () => {
    const { read } = readTraceText('time,Current min,Current max,Current avg\n0,1,3,2\n1,1,5,3\n');
    expect(read.map(({ amps }) => amps)).toEqual([2, 3]);
  });

  it('does without volts, and makes amps of watts only when there are no amps', () => {
    expect(readTraceText('t,I\n0,0.1\n1,0.2\n').read[0]!.volts).toBeNull();
    expect(rowsOf('t,V,W\n0,10,1\n1,0,0\n2,0,3\n')).toEqual([
      [0, 10, 0.1],
      [10_000, 0, 0],
      [20_000, 0, null],
    ]);
  });

  it('reads the regulation in words, and nothing from a code of 0 and 1', () => {
    const told = readTraceText('t,V,A,Mode\n0,5,1,CV\n1,4,2,"CC"\n2,0,0,OFF\n3,4,2,UR\n').read;
    expect(told.map(({ regulation }) => regulation)).toEqual(['cv', 'cc', 'off', 'unregulated']);
    expect(told[2]!.outputOn).toBe(false);
    const coded = readTraceText('t,V,A,Mode\n0,5,1,0\n1,4,2,1\n').read;
    expect(coded.map(({ regulation }) => regulation)).toEqual([null, null]);
  });

  it('guesses by place without a header, and says so', () => {
    const { read, layout } = readTraceText('0 12.0 0.1\n0.05 12.0 0.2\n');
    expect(read[1]).toMatchObject({ tick: 500, volts: 12, amps: 0.2 });
    expect(layout.notes.join()).toContain('no header');
  });

  it('takes columns and units that a person names, by heading or number', () => {
    const text = 'when,x,y,z\n0,1,20,5\n10,2,30,5\n';
    const options = { time: 'WHEN', amps: '3', volts: 'z', timeUnit: 'ms', ampsUnit: 'mA' };
    expect(rowsOf(text, options)).toEqual([
      [0, 5, 0.02],
      [100, 5, 0.03],
    ]);
    expect(troubleWith(text, { amps: 'current' })).toMatchObject({
      what: 'There is no column "current"',
      todo: expect.stringContaining('2 "x"'),
    });
  });

  it('understands what this product writes when it captures', () => {
    const text =
      'time_s,volts_v,amps_a,regulation,output\n0.0000,5.01,0.1,cv,on\n0.0500,5,,off,off\n';
    const { read } = readTraceText(text);
    expect(read[1]).toEqual({
      tick: 500,
      volts: 5,
      amps: null,
      regulation: 'off',
      outputOn: false,
    });
  });
});

describe('createTraceFileReader takes logs as they really are', () => {
  const preamble = 'Model,X1\nSerial,123\nStarted,2031-04-01\nFirmware,1.0\nOperator,me\n';
  const log =
    `${preamble}Range,3A\nRate,20\n` +
    'Date,Time,Fraction,U,I,Mode\n' +
    '2031-04-01,10:00:00,000,12.003V,0.231A,CV\n' +
    '# paused by hand\n' +
    '2031-04-01,10:00:00,050,12.003V,0.232A,CV\n';

  it('passes over seven lines of keys and values and over comments inside the rows', () => {
    expect(rowsOf(log)).toEqual([
      [0, 12.003, 0.231],
      [500, 12.003, 0.232],
    ]);
  });

  it('puts date, time and fraction of three columns together, over midnight too', () => {
    const text =
      'Date,Time,ms,V,A\n2031-04-01,23:59:59,950,5,0.1\n2031-04-02,00:00:00,000,5,0.2\n' +
      '2031-04-02,00:00:00,050,5,0.2\n';
    expect(rowsOf(text).map(([tick]) => tick)).toEqual([0, 500, 1000]);
    const bare = '2031-04-01,10:00:00,.25,5,0.1\n2031-04-01,10:00:00,.30,5,0.2\n';
    expect(rowsOf(bare)).toEqual([
      [0, 5, 0.1],
      [500, 5, 0.2],
    ]);
  });

  it('leaves out a row of 26 cells where 15 are due, whole, and says which', () => {
    const cells = (time: number, amps: string) =>
      `${time},5.0,${amps},1,2,3,4,5,6,7,8,9,10,11,12`.split(',');
    const header = ['time', 'volts', 'amps', ...Array.from({ length: 12 }, (_, i) => `x${i}`)];
    const glued = [...cells(2, '0.3').slice(0, 11), ...cells(3, '9.9')];
    expect(glued).toHaveLength(26);
    const text = [header, cells(0, '0.1'), cells(1, '0.2'), glued, cells(4, '0.4')]
      .map((row) => row.join(','))
      .join('\n');
    const { read, rejected, firstRejected } = readTraceText(text);
    expect(read.map(({ amps }) => amps)).toEqual([0.1, 0.2, 0.4]);
    expect(rejected).toBe(1);
    expect(firstRejected).toEqual([{ row: 4, why: '26 cells instead of 15' }]);
  });

  it('leaves out a last row that was cut, and repeated headers', () => {
    const { read, rejected } = readTraceText('t,V,A\n0,5,1\nt,V,A\n1,5,2\n2,5');
    expect(read).toHaveLength(2);
    expect(rejected).toBe(1);
  });

  it('keeps the numbers out of other text', () => {
    expect(rowsOf('t=0.10 s, V=12.003 V, I=231 mA\nt=0.20 s, V=12.003 V, I=0.232 A\n')).toEqual([
      [0, 12.003, 0.231],
      [1000, 12.003, 0.232],
    ]);
    expect(
      rowsOf('[10:00:00.100] V1 1.350V I1 0.231A\n[10:00:00.200] V1 1.350V I1 0.232A\n'),
    ).toEqual([
      [0, 1.35, 0.231],
      [1000, 1.35, 0.232],
    ]);
  });

  it('takes every way to say over range or nothing read as no reading', () => {
    const words = [
      'OL',
      '9.9E37',
      '+9.90000000E+37',
      '9.91E37',
      '-9.9E37',
      '1E9',
      'INF',
      'NAN',
      '',
    ];
    const rows = words.map((word, i) => `${i},${word},0.1`).join('\n');
    expect(rowsOf(`t,V,A\n${rows}\n20,5,0.1\n`).map(([, volts]) => volts)).toEqual([
      ...words.map(() => null),
      5,
    ]);
  });

  it("reads a meter's own export, where each row has its unit", () => {
    const text =
      'No,Time,Value,Unit\n1,10:00:00,123.4,mA DC\n2,10:00:01,1.0234,A DC\n3,10:00:02,OL,A DC\n';
    expect(rowsOf(text)).toEqual([
      [0, null, 0.1234],
      [10_000, null, 1.0234],
      [20_000, null, null],
    ]);
  });

  it('reads an export that names the function of each reading, wherever that column is', () => {
    for (const text of [
      'Reading,Time,Function\n1.2E-3,10:00:00.1,DCI\n1.3E-3,10:00:00.2,DCI\n',
      'Function,Value,Time\nDC Current,0.0012,10:00:00.1\nDC Current,0.0013,10:00:00.2\n',
    ]) {
      expect(rowsOf(text)).toEqual([
        [0, null, 0.0012],
        [1000, null, 0.0013],
      ]);
    }
  });

  it('finds the numbers under a preamble of hundreds of lines', () => {
    const notes = Array.from({ length: 300 }, (_, i) => `note ${i}`).join('\n');
    expect(rowsOf(`${notes}\ntime,volts,amps\n0,5,1\n1,5,2\n`)).toHaveLength(2);
  });

  it('keeps a gap of seconds as it is', () => {
    expect(rowsOf('t,A\n0,1\n0.05,1\n6.55,2\n6.60,2\n').map(([tick]) => tick)).toEqual([
      0, 500, 65_500, 66_000,
    ]);
  });
});

describe('createTraceFileReader reads times', () => {
  const ticks = (times: readonly string[], heading = 'Time') =>
    rowsOf(`${heading};A\n${times.map((time) => `${time};0.1`).join('\n')}\n`).map(([t]) => t);

  it.each([
    ['ISO 8601 in UTC', ['2031-04-01T10:00:00.000Z', '2031-04-01T10:00:00.050Z']],
    ['ISO 8601 with an offset', ['2031-04-01T23:59:59.97+02:00', '2031-04-02T00:00:00.02+02:00']],
    ['day first with points', ['30.04.2031 23:59:59,97', '01.05.2031 00:00:00,02']],
    ['month first with noon and midnight', ['4/1/2031 11:59:59.97 AM', '4/1/2031 12:00:00.02 PM']],
    ['day, name of the month, year', ['30-Apr-2031 23:59:59.97', '01-May-2031 00:00:00.02']],
    ['hours, minutes, seconds', ['10:00:00.100', '10:00:00.150']],
    ['minutes and seconds', ['59:59.97', '60:00.02']],
    ['compact date-times', ['20310401_100000.100', '20310401_100000.150']],
    ['seconds since 1970', ['1932804000.10', '1932804000.15']],
    ['milliseconds since 1970', ['1932804000100', '1932804000150']],
    ['microseconds since 1970', ['1932804000100000', '1932804000150000']],
    ['milliseconds without a unit, by their steps', ['100', '150']],
    ['microseconds without a unit, by their steps', ['100000', '150000']],
    ['seconds', ['0.10', '0.15']],
  ])('as %s', (_name, times) => {
    expect(ticks(times)).toEqual([0, 500]);
  });

  it('spreads rows that share a second evenly inside it, and does not fill a gap with them', () => {
    const times = ['10:00:00', '10:00:00', '10:00:01', '10:00:01', '10:00:06', '10:00:06'];
    expect(ticks(times)).toEqual([0, 5000, 10_000, 15_000, 60_000, 65_000]);
  });

  it('makes even times where there are none, from the preamble or as it is told', () => {
    expect(rowsOf('Sample Rate,1000 Hz\nCurrent (A),Voltage (V)\n0.1,5\n0.2,5\n')).toEqual([
      [0, 5, 0.1],
      [10, 5, 0.2],
    ]);
    expect(rowsOf('# Sampling interval: 2 ms\nIndex,Current (mA)\n1,5\n2,6\n3,7\n')).toEqual([
      [0, null, 0.005],
      [20, null, 0.006],
      [40, null, 0.007],
    ]);
    expect(rowsOf('0.1\n0.2\n', { rateHz: 20 })).toEqual([
      [0, null, 0.1],
      [500, null, 0.2],
    ]);
  });

  it('goes on over midnight, the end of summer time and a counter that ran over', () => {
    expect(ticks(['23:59:59.9', '00:00:00.1'])).toEqual([0, 2000]);
    expect(ticks(['2031-10-26 02:59:59', '2031-10-26 02:00:00'])).toEqual([0, 10_000]);
    expect(ticks(['4294967200', '4294967290', '4'], 'time (ms)')).toEqual([0, 900, 1000]);
  });
});

describe('createTraceFileReader refuses what it cannot read, by row and column', () => {
  it('text where a number is due, in the first row as well', () => {
    expect(troubleWith('time,volts,amps\n0,12,0.1\n0.05,12,abc\n')).toMatchObject({
      code: 'bad-trace-file',
      what: '"abc" is not a number',
      where: 'row 3, column 3 "amps"',
    });
    expect(troubleWith('time,volts,amps\n0,what,0.1\n1,12,0.1\n2,12,0.2\n').where).toBe(
      'row 2, column 2 "volts"',
    );
    expect(troubleWith('time,amps\n0,abc\n').where).toBe('row 2, column 2 "amps"');
    expect(troubleWith('t,V,A\n0,5,1\n1,5,0x1F\n').where).toBe('row 3, column 3 "A"');
    expect(troubleWith('t,V,A\n0,5,1\n1,5,0.1230.456\n').where).toBe('row 3, column 3 "A"');
  });

  it('counts comments and blank lines as rows, as an editor does', () => {
    expect(troubleWith('# one\n\ntime,volts,amps\n0,12,0.1\n# two\n1,12,x\n').where).toBe(
      'row 6, column 3 "amps"',
    );
  });

  it('a time that goes back, and one that is no time', () => {
    expect(troubleWith('time,volts,amps\n0,1,1\n1,1,1\n0.5,1,1\n')).toMatchObject({
      what: 'The time goes back by 500 ms',
      where: 'row 4, column 1 "time"',
    });
    expect(troubleWith('time,amps\n0,1\n1,1\nsoon,1\n')).toMatchObject({
      what: '"soon" is not a time',
      where: 'row 4, column 1 "time"',
    });
    expect(troubleWith('time,amps\n0,1\n1,1\n,1\n').what).toBe('The time is missing');
    expect(troubleWith('Time,A\n10:00:05,1\n10:00:04,1\n').where).toBe('row 3, column 1 "Time"');
    expect(troubleWith('Time,A\n2031-10-26T02:59:59Z,1\n2031-10-26T02:00:00Z,1\n').what).toBe(
      'The time goes back by 3599 s',
    );
  });

  it('a time that stands still', () => {
    expect(troubleWith('time,amps\n5,1\n5,1\n5,1\n').what).toBe('The time stands still');
  });

  it('a needed column that is missing, naming those that are there', () => {
    expect(troubleWith('time,volts\n0,1\n1,1\n')).toMatchObject({
      what: 'No column can be told to be the amps',
      where: expect.stringContaining('1 "time", 2 "volts"'),
      todo: expect.stringContaining('--amps'),
    });
    expect(troubleWith('volts,amps\n1,1\n1,2\n')).toMatchObject({
      what: 'No column can be told to be the time',
      todo: expect.stringContaining('--rate-hz'),
    });
  });

  it('no rows, an empty file, prose', () => {
    expect(troubleWith('time,volts,amps\n')).toMatchObject({
      what: 'The file has 0 rows of samples',
      where: 'row 2, column 1 "time"',
    });
    expect(troubleWith('')).toMatchObject({ what: 'The file is empty', where: 'row 1, column 1' });
    expect(troubleWith('hello there\nthis is text\n').what).toBe('No row of numbers was found');
    expect(troubleWith('time,volts,amps\n0,1\n1,1\n2,1\n')).toMatchObject({
      what: 'The rows have 2 cells and the header in row 1 has 3',
      where: 'row 2, column 3 "amps"',
    });
  });
});

describe('createTraceFileReader as a stream', () => {
  it('reads the same however the text is cut', () => {
    const text =
      '\ufeffModel,X\r\n"Time","Volts","Amps"\r\n' +
      Array.from({ length: 300 }, (_, i) => `${i / 20},"12.00${i % 7}",0.0${10 + (i % 5)}`).join(
        '\r\n',
      );
    const whole = readTraceText(text);
    expect(whole.read).toHaveLength(300);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: text.length }), { maxLength: 40 }), (cuts) => {
        const at = [0, ...cuts.sort((a, b) => a - b), text.length];
        const pieces = at.slice(1).map((end, i) => text.slice(at[i], end));
        expect(readTraceText(pieces)).toEqual(whole);
      }),
      { numRuns: 60 },
    );
  });

  it('reads or refuses any text, and what it reads is in order and finite', () => {
    const scrap = fc.constantFrom(
      ...['0', '1', '12.5', '-3', '1e5', ',', ';', '\t', ' ', '\n', '\n', '"', '#', 'time', 'amps'],
      ...['volts', 'mA', '(', ')', 'CV', '10:00:01', '2031-04-01', 'OL', ':', '.', '9.9E37', 'abc'],
    );
    fc.assert(
      fc.property(fc.array(scrap, { maxLength: 80 }), fc.boolean(), (scraps, hasHeader) => {
        const text = (hasHeader ? 'time,volts,amps\n' : '') + scraps.join('');
        try {
          const { read } = readTraceText(text);
          read.forEach(({ tick, volts, amps }, i) => {
            expect(Number.isSafeInteger(tick)).toBe(true);
            expect(tick).toBeGreaterThanOrEqual(read[i - 1]?.tick ?? 0);
            expect(volts === null || Number.isFinite(volts)).toBe(true);
            expect(amps === null || Number.isFinite(amps)).toBe(true);
          });
        } catch (thrown) {
          if (!(thrown instanceof WakelineError)) throw thrown;
          expect(thrown.trouble.code).toBe('bad-trace-file');
          expect(thrown.trouble.where).toMatch(/row|header|column/);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('refuses a file without line ends before it fills the memory', () => {
    const reader = createTraceFileReader({}, () => {});
    const piece = '0'.repeat(1 << 18);
    let taken = 0;
    try {
      for (; taken < 100; taken += 1) reader.push(piece);
    } catch (thrown) {
      expect((thrown as WakelineError).trouble.where).toBe('row 1, column 1');
    }
    expect(taken).toBeLessThan(10);
  });

  it('ends lines by LF, CRLF or CR alike', () => {
    const rows = ['t,V,A', '0,5,1', '', '1,5,2'];
    const expected = rowsOf(rows.join('\n'));
    expect(rowsOf(rows.join('\r\n'))).toEqual(expected);
    expect(rowsOf(rows.join('\r'))).toEqual(expected);
  });

  it('takes five million rows without keeping them', () => {
    let samples = 0;
    let lastTick = -1;
    const reader = createTraceFileReader({}, (sample) => {
      samples += 1;
      lastTick = sample.tick;
    });
    const body = Array.from({ length: 5000 }, (_, i) => `,12.00${i % 3},0.01${i % 5}\n`);
    reader.push('time,volts,amps\n');
    let before = 0;
    for (let block = 0; block < 1000; block += 1) {
      let text = '';
      for (let i = 0; i < 5000; i += 1) text += block * 5000 + i + body[i]!;
      reader.push(text);
      if (block === 100) before = process.memoryUsage().heapUsed;
    }
    const grown = process.memoryUsage().heapUsed - before;
    expect(reader.finish().samples).toBe(5_000_000);
    expect(samples).toBe(5_000_000);
    expect(lastTick).toBe(49_999_990_000);
    // Five million rows kept as objects would be hundreds of megabytes.
    expect(grown).toBeLessThan(150e6);
  }, 60_000);
});
