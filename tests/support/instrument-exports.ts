/**
 * Files as meters, supplies, loggers and spreadsheets export them: every one invented, none taken from
 * an instrument. Each holds the same run (or the part that its format can tell), so that what is
 * read can be compared with what was written.
 */
export interface InstrumentExport {
  readonly name: string;
  readonly content: string | Uint8Array;
  /** Samples that the file holds. */
  readonly samples: number;
  /** Seconds between samples. */
  readonly stepS: number;
  readonly hasVolts: boolean;
  /** Amps that the file cannot tell better than this. */
  readonly countA: number;
}

interface Row {
  readonly i: number;
  readonly t: number;
  readonly v: number;
  readonly a: number;
}

/** The run: off, flat low, two steps, then busy at 0.44 A; 12 V. */
export function exportedRun(samples: number, stepS: number): Row[] {
  return Array.from({ length: samples }, (_, i) => {
    const t = i * stepS;
    const busy = 0.42 + ((i * 37) % 11) / 200;
    const level = t < 4 ? 0 : t < 10 ? 0.019 : t < 14 ? 0.11 : t < 18 ? 0.23 : busy;
    return { i, t, v: t < 4 ? 0 : 12 + (i % 2) / 100, a: level + ((i * 7919) % 3) / 1000 };
  });
}

const comma = (value: number, digits: number) => value.toFixed(digits).replace('.', ',');
const two = (value: number) => String(value).padStart(2, '0');
const clock = (t: number) => {
  const s = 10 * 3600 + 15 * 60 + Math.floor(t + 1e-9);
  return `${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)}`;
};
const milli = (t: number) => String(Math.round((t - Math.floor(t + 1e-9)) * 1000)).padStart(3, '0');
const stamp = (t: number) => `2031-04-01 ${clock(t)}.${milli(t)}`;
const utf16 = (text: string, big = false) => {
  const bytes = Buffer.from(`\ufeff${text}`, 'utf16le');
  return big ? bytes.swap16() : bytes;
};
const lines = (head: readonly string[], rows: readonly string[], tail: readonly string[] = []) =>
  `${[...head, ...rows, ...tail].join('\n')}\n`;

const row3 = (r: Row) => `${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)}`;
const spaced = (value: number) => value.toFixed(0).replace(/\B(?=(\d{3})+$)/g, '\u202f');

const FAST = exportedRun(800, 0.05);
const SLOW = exportedRun(100, 1);
const fast = { samples: 800, stepS: 0.05, hasVolts: true, countA: 0.0005 };
const slow = { samples: 100, stepS: 1, hasVolts: true, countA: 0.0005 };

export const INSTRUMENT_EXPORTS: readonly InstrumentExport[] = [
  {
    name: 'a supply log with a preamble of keys',
    ...fast,
    content: lines(
      [
        'Model,BENCH 3005',
        'Serial,0042',
        'Date,01.04.2031',
        'Channel,1',
        'Vset,12.000',
        'Iset,2.000',
        '',
      ],
      [
        'Time (s),Voltage (V),Current (A),Power (W),Mode',
        ...FAST.map(
          (r) =>
            `${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)},${(r.v * r.a).toFixed(3)},CV`,
        ),
      ],
    ),
  },
  {
    name: 'semicolons and decimal commas with German headings',
    ...fast,
    content: lines(
      ['Zeit [s];Spannung [V];Strom [A];Leistung [W]'],
      FAST.map((r) => `${comma(r.t, 2)};${comma(r.v, 3)};${comma(r.a, 3)};${comma(r.v * r.a, 3)}`),
    ),
  },
  {
    name: 'semicolons, decimal commas and milliamps',
    ...fast,
    content: lines(
      ['Nr.;Datum;Uhrzeit;U [V];I [mA]'],
      FAST.map(
        (r) =>
          `${r.i + 1};01.04.2031;${clock(r.t)},${milli(r.t)};${comma(r.v, 3)};${comma(r.a * 1000, 1)}`,
      ),
    ),
  },
  {
    name: 'a meter export with value and unit columns',
    ...slow,
    hasVolts: false,
    content: lines(
      ['Reading,Value,Unit,Timestamp'],
      SLOW.map((r) => `${r.i + 1},${(r.a * 1000).toFixed(2)},mA,${stamp(r.t)}`),
    ),
  },
  {
    name: 'a meter export with a function column and OL',
    ...slow,
    hasVolts: false,
    content: lines(
      ['Date,Time,Function,Value,Unit'],
      SLOW.map((r) => `04/01/2031,${clock(r.t)},DC Current,${r.a.toFixed(4)},A`),
    ),
  },
  {
    name: 'a meter export with units glued to values',
    ...slow,
    hasVolts: false,
    content: lines(
      ['Time,Reading'],
      SLOW.map((r) => `${clock(r.t)},${(r.a * 1000).toFixed(1)} mA DC`),
    ),
  },
  {
    name: 'UTF-16 with tabs, as a spreadsheet saves Unicode text',
    ...fast,
    content: utf16(
      lines(
        ['Time\tVoltage\tCurrent'],
        FAST.map((r) => `${r.t.toFixed(2)}\t${r.v.toFixed(3)}\t${r.a.toFixed(3)}`),
      ).replaceAll('\n', '\r\n'),
    ),
  },
  {
    name: 'UTF-16 big endian with semicolons',
    ...fast,
    content: utf16(
      lines(
        ['Time;Voltage;Current'],
        FAST.map((r) => `${comma(r.t, 2)};${comma(r.v, 3)};${comma(r.a, 3)}`),
      ),
      true,
    ),
  },
  {
    name: 'every field quoted',
    ...fast,
    content: lines(
      ['"Time","Voltage","Current"', '"s","V","A"'],
      FAST.map((r) => `"${r.t.toFixed(2)}","${r.v.toFixed(3)}","${r.a.toFixed(3)}"`),
    ),
  },
  {
    name: 'quoted decimal commas between commas',
    ...fast,
    content: lines(
      ['"Time","Voltage","Current"'],
      FAST.map((r) => `"${comma(r.t, 2)}","${comma(r.v, 3)}","${comma(r.a, 3)}"`),
    ),
  },
  {
    name: 'trailing summary lines',
    ...fast,
    content: lines(
      ['Time(s),Voltage(V),Current(A)'],
      FAST.map((r) => `${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
      ['', 'Samples,800', 'Average,11.2,0.31', 'Max,12.01,0.472', 'Min,0,0', 'End of file'],
    ),
  },
  {
    name: 'a summary of as many cells as the rows have',
    ...fast,
    content: lines(
      ['Time(s),Voltage(V),Current(A)'],
      FAST.map((r) => `${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
      ['Average,11.2,0.31', 'Maximum,12.01,0.472', 'Minimum,0.000,0.000'],
    ),
  },
  {
    name: 'epoch seconds with fractions',
    ...fast,
    content: lines(
      ['timestamp,voltage,current'],
      FAST.map((r) => `${(1932804900 + r.t).toFixed(3)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'epoch milliseconds',
    ...fast,
    content: lines(
      ['ts,v,i'],
      FAST.map(
        (r) => `${1932804900000 + Math.round(r.t * 1000)},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'sample numbers and an interval in the preamble',
    ...fast,
    hasVolts: false,
    content: lines(
      ['Sample interval,0.05,s', 'Range,10A', 'Sample,Current (A)'],
      FAST.map((r) => `${r.i},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'sample numbers and an interval in milliseconds glued',
    ...fast,
    content: lines(
      ['# Sampling interval: 50ms', '# Number;U(V);I(A)'],
      FAST.map((r) => `${r.i};${r.v.toFixed(3)};${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'a scope-like table: sample rate, then channels',
    ...fast,
    hasVolts: false,
    content: lines(
      [
        'Sample Rate:,20 Sa/s',
        'Record Length,800',
        'Source,CH1',
        'Vertical Units,A',
        '',
        'Time,CH1',
        '(s),(A)',
      ],
      FAST.map((r) => `${(r.t - 1).toExponential(6)},${r.a.toExponential(6)}`),
    ),
  },
  ...(
    [
      'Amps',
      'Current(A)',
      'CH1 Curr',
      'Ch1_I',
      'Measured current',
      'DC Current',
      'Output Current (A)',
      'I',
      'I(A)',
      'I [A]',
      'Iout',
      'I_out',
      'IOUT(A)',
      'Current Draw',
      'curr',
      'amp',
      'Current 1',
      'Channel 1 Current',
      'CH1-A',
      'CH1(A)',
      'Actual Current',
      'Read Current',
      'Current.Actual',
      'current_a',
      'Meas I',
      'I Meas',
      'I measured',
      'Amperage',
      'Ampere',
      'CH1 I',
      'CH1_Curr(A)',
      'PS1 Current',
      'A',
      'Load Current',
      'Supply current',
      'Imon',
      'A DC',
      'ADC',
      'Current/A',
      'Current, A',
      'Strom',
      'Courant (A)',
      'Corriente (A)',
      'Stroom (A)',
      'Ch1 Meas Curr',
      'OUT1 I',
      'Current A',
      'DC I',
      'DCI',
      'IDC',
      'Amps (DC)',
      'Current[A]',
      'P1:I',
      'measCurr',
      'outputCurrent',
      'MEAS:CURR',
      'meas_curr',
      'CURR?',
      'MEAS:CURR? (A)',
      'Ausgangsstrom',
      'I-Out',
      'Current value',
      'Current reading (A)',
      'I1',
      'I_1',
      'IL',
      'Ibus',
      'I_bat',
      'Battery current',
    ] as const
  ).map(
    (heading): InstrumentExport => ({
      name: `amps under "${heading}"`,
      ...fast,
      content: lines(
        [`Time;${/mon|out|meas/i.test(heading) ? 'Vout' : 'Voltage'};${heading}`],
        FAST.map((r) => `${r.t.toFixed(2)};${r.v.toFixed(3)};${r.a.toFixed(3)}`),
      ),
    }),
  ),
  ...(
    [
      'I [mA]',
      'Current (mA)',
      'mA',
      'Current mA',
      'I_mA',
      'CH1 Curr [mA]',
      'current_ma',
      'Amps (mA)',
      'DC mA',
      'mA DC',
      'Current(MA)',
    ] as const
  ).map(
    (heading): InstrumentExport => ({
      name: `milliamps under "${heading}"`,
      ...fast,
      hasVolts: false,
      content: lines(
        [`Time,${heading}`],
        FAST.map((r) => `${r.t.toFixed(2)},${(r.a * 1000).toFixed(1)}`),
      ),
    }),
  ),
  {
    name: 'repeated headers and blank lines between pages',
    ...fast,
    content: lines(
      [],
      FAST.map(
        (r) =>
          `${r.i % 100 === 0 ? '\nTime [s], Voltage [V], Current [A]\n' : ''}${r.t.toFixed(2)}, ${r.v.toFixed(3)}, ${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'a header that is repeated with other blanks',
    ...fast,
    content: lines(
      ['Time,Voltage,Current'],
      FAST.map(
        (r) =>
          `${r.i > 0 && r.i % 100 === 0 ? 'time, voltage, current \n' : ''}${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'set-points beside readings',
    ...fast,
    content: lines(
      ['Time,Set Voltage (V),Set Current (A),Voltage (V),Current (A),OVP (V),OCP (A),Output'],
      FAST.map(
        (r) =>
          `${clock(r.t)}.${milli(r.t)},12.000,2.000,${r.v.toFixed(3)},${r.a.toFixed(3)},33.0,5.2,${r.t < 4 ? 'OFF' : 'ON'}`,
      ),
    ),
  },
  {
    name: 'three channels, the first in use',
    ...fast,
    content: lines(
      ['Time,CH1 V,CH1 A,CH2 V,CH2 A,CH3 V,CH3 A'],
      FAST.map(
        (r) => `${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)},0.000,0.000,0.000,0.000`,
      ),
    ),
  },
  {
    name: 'three channels, the second in use',
    ...fast,
    content: lines(
      ['Time,CH1 V,CH1 A,CH2 V,CH2 A,CH3 V,CH3 A'],
      FAST.map(
        (r) => `${r.t.toFixed(2)},0.000,0.000,${r.v.toFixed(3)},${r.a.toFixed(3)},0.000,0.000`,
      ),
    ),
  },
  {
    name: 'time as hours, minutes, seconds and hundredths',
    ...fast,
    content: lines(
      ['Elapsed,Volts,Amps'],
      FAST.map(
        (r) =>
          `00:${two(Math.floor(r.t / 60 + 1e-9))}:${(r.t % 60).toFixed(2).padStart(5, '0')},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'American dates with AM and PM, whole seconds',
    ...slow,
    content: lines(
      ['Date/Time,Voltage,Current'],
      SLOW.map(
        (r) => `4/1/2031 ${clock(r.t).replace(/^0/, '')} AM,${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'dates with points and a clock in one column',
    ...slow,
    content: lines(
      ['Zeitstempel;Spannung;Strom'],
      SLOW.map((r) => `01.04.2031 ${clock(r.t)};${comma(r.v, 2)};${comma(r.a, 3)}`),
    ),
  },
  {
    name: 'ISO times with an offset',
    ...fast,
    content: lines(
      ['time,voltage_v,current_a'],
      FAST.map(
        (r) => `2031-04-01T${clock(r.t)}.${milli(r.t)}+02:00,${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'whole seconds of a clock shared by twenty rows',
    ...fast,
    content: lines(
      ['Time,Volt,Ampere'],
      FAST.map((r) => `${clock(r.t)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'date, time and milliseconds in three columns',
    ...fast,
    content: lines(
      ['Date,Time,ms,Voltage,Current'],
      FAST.map(
        (r) => `2031/04/01,${clock(r.t)},${Number(milli(r.t))},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'year, month, day, hour, minute and second in columns of their own',
    ...slow,
    content: lines(
      ['Year,Month,Day,Hour,Minute,Second,Voltage,Current'],
      SLOW.map(
        (r) =>
          `2031,4,1,10,${15 + Math.floor(r.t / 60)},${r.t % 60},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'sample number and elapsed time with a trailing separator',
    ...fast,
    content: lines(
      ['No.;Time;U;I;P;'],
      FAST.map(
        (r) =>
          `${r.i + 1};${comma(r.t, 2)};${comma(r.v, 2)};${comma(r.a, 3)};${comma(r.v * r.a, 2)};`,
      ),
    ),
  },
  {
    name: 'fixed columns of blanks under a rule of dashes',
    ...fast,
    content: lines(
      [
        '   Time     Voltage   Current',
        '   [s]      [V]       [A]',
        '   -------  --------  -------',
      ],
      FAST.map(
        (r) =>
          `${r.t.toFixed(2).padStart(10)}${r.v.toFixed(3).padStart(10)}${r.a.toFixed(3).padStart(10)}`,
      ),
    ),
  },
  {
    name: 'sep= line of a spreadsheet',
    ...fast,
    content: lines(
      ['sep=;', 'Time;Voltage;Current'],
      FAST.map((r) => `${comma(r.t, 2)};${comma(r.v, 3)};${comma(r.a, 3)}`),
    ),
  },
  {
    name: 'numbers with units glued in every cell',
    ...fast,
    content: lines(
      ['Time,Voltage,Current,Power'],
      FAST.map(
        (r) =>
          `${r.t.toFixed(2)}s,${r.v.toFixed(3)}V,${r.a.toFixed(3)}A,${(r.v * r.a).toFixed(2)}W`,
      ),
    ),
  },
  {
    name: 'amps and milliamps changing with the range',
    ...fast,
    content: lines(
      ['Time,Voltage,Current'],
      FAST.map(
        (r) =>
          `${r.t.toFixed(2)},${r.v.toFixed(3)} V,${r.a < 0.1 ? `${(r.a * 1000).toFixed(2)} mA` : `${r.a.toFixed(4)} A`}`,
      ),
    ),
  },
  {
    name: 'scientific notation',
    ...fast,
    content: lines(
      ['X,Voltage,Current', 'Second,Volt,Ampere'],
      FAST.map(
        (r) =>
          `${r.t.toExponential(5)},${r.v.toExponential(5)},+${r.a.toExponential(5).toUpperCase()}`,
      ),
    ),
  },
  {
    name: 'a poller log in key=value pairs',
    ...fast,
    content: lines(
      [],
      FAST.map((r) => `${stamp(r.t)}, V=${r.v.toFixed(3)}, I=${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'key: value pairs with units',
    ...fast,
    content: lines(
      [],
      FAST.map(
        (r) =>
          `[${clock(r.t)}.${milli(r.t)}]\tVoltage: ${r.v.toFixed(3)} V\tCurrent: ${r.a.toFixed(3)} A`,
      ),
    ),
  },
  {
    name: 'percent comments and no header',
    ...fast,
    content: lines(
      ['% bench log', '% t V I'],
      FAST.map((r) => `${r.t.toFixed(2)} ${r.v.toFixed(3)} ${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'old Mac line ends',
    ...fast,
    content: lines(
      ['Time,Voltage,Current'],
      FAST.map((r) => `${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
    ).replaceAll('\n', '\r'),
  },
  {
    name: 'a title line, a blank line and a header of three rows',
    ...fast,
    content: lines(
      [
        'Bench data logger report',
        'Start: 2031-04-01 10:15:00',
        '',
        ',Channel 1,Channel 1',
        'Time,Voltage,Current',
        's,V,A',
      ],
      FAST.map((r) => `${r.t.toFixed(2)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'microamps by the Greek letter in a Latin-1 file',
    ...fast,
    hasVolts: false,
    content: Buffer.from(
      lines(
        ['Time (s),Current (\u00b5A)'],
        FAST.map((r) => `${r.t.toFixed(2)},${(r.a * 1e6).toFixed(0)}`),
      ),
      'latin1',
    ),
  },
  {
    name: 'amps before volts',
    ...fast,
    content: lines(
      ['Current (A),Voltage (V),Time (s)'],
      FAST.map((r) => `${r.a.toFixed(3)},${r.v.toFixed(3)},${r.t.toFixed(2)}`),
    ),
  },
  {
    name: 'minimum, average and maximum of each reading',
    ...fast,
    content: lines(
      ['Time,V min,V avg,V max,I min,I avg,I max'],
      FAST.map(
        (r) =>
          `${r.t.toFixed(2)},${(r.v - 0.01).toFixed(3)},${r.v.toFixed(3)},${(r.v + 0.01).toFixed(3)},${(r.a - 0.002).toFixed(3)},${r.a.toFixed(3)},${(r.a + 0.002).toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'charge and energy beside the readings',
    ...fast,
    content: lines(
      ['Time(ms),Voltage(mV),Current(mA),Power(mW),Capacity(mAh),Energy(mWh),Temp(C)'],
      FAST.map(
        (r) =>
          `${Math.round(r.t * 1000)},${(r.v * 1000).toFixed(0)},${(r.a * 1000).toFixed(1)},${(r.v * r.a * 1000).toFixed(0)},0.12,1.4,24.5`,
      ),
    ),
  },
  {
    name: 'a supply log in the C V R P order of an electronic display',
    ...fast,
    content: lines(
      ['Time,Vset,Iset,Vout,Iout,Pout,CC/CV'],
      FAST.map(
        (r) =>
          `${r.t.toFixed(2)},12,2,${r.v.toFixed(2)},${r.a.toFixed(3)},${(r.v * r.a).toFixed(2)},CV`,
      ),
    ),
  },
  {
    name: 'a time with day prefix',
    ...slow,
    content: lines(
      ['Elapsed time (d hh:mm:ss),Voltage (V),Current (A)'],
      SLOW.map(
        (r) =>
          `0 00:${two(Math.floor(r.t / 60))}:${two(r.t % 60)},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'thousands grouped in milliseconds',
    ...fast,
    content: lines(
      ['"Time (ms)","Voltage (V)","Current (A)"'],
      FAST.map(
        (r) =>
          `"${Math.round(r.t * 1000).toLocaleString('en-US')}","${r.v.toFixed(3)}","${r.a.toFixed(3)}"`,
      ),
    ),
  },
  {
    name: 'minutes as the unit of time',
    ...fast,
    content: lines(
      ['Time (min),Voltage (V),Current (A)'],
      FAST.map((r) => `${(r.t / 60).toFixed(7)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'JSON-like rows are refused or read, a table in pipes is read',
    ...fast,
    content: lines(
      ['| Time | Voltage | Current |', '|------|---------|---------|'],
      FAST.map((r) => `| ${r.t.toFixed(2)} | ${r.v.toFixed(3)} | ${r.a.toFixed(3)} |`),
    ),
  },
  {
    name: 'a spreadsheet of serial day numbers',
    ...slow,
    content: lines(
      ['Date Time,Voltage,Current'],
      SLOW.map(
        (r) =>
          `${(47939 + (10 * 3600 + 900 + r.t) / 86400).toFixed(9)},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'an index without a heading in front',
    ...fast,
    content: lines(
      [',time,volts,amps'],
      FAST.map((r) => `${r.i},${row3(r)}`),
    ),
  },
  {
    name: 'no header, a count in front of the time',
    ...fast,
    content: lines(
      [],
      FAST.map((r) => `${r.i + 1},${row3(r)}`),
    ),
  },
  {
    name: 'cells padded by a spreadsheet',
    ...fast,
    content: lines(
      ['Supply;BENCH;;;', 'Operator;;;;', ';;;;', 'Time (s);Voltage (V);Current (A);;'],
      FAST.map((r) => `${comma(r.t, 2)};${comma(r.v, 3)};${comma(r.a, 3)};;`),
    ),
  },
  {
    name: 'a column with the interval instead of a time',
    ...fast,
    hasVolts: false,
    content: lines(
      ['Sample,Interval (s),Current (A)'],
      FAST.map((r) => `${r.i},0.05,${r.a.toFixed(3)}`),
    ),
  },
  ...(
    [
      'Interval: 00:00:01',
      'Log interval = 1s',
      'Sampling Period (ms);1000',
      'Rate,1 Hz',
      'Sampling speed: 1 samples/s',
      '\u0394t = 1 s',
      'XINCR 1.0',
      'Sample Interval,1.000000e+00',
      'Fs=1',
      'Freq: 1Hz',
      'Sampling Frequency (Hz) 1',
      'Sample Period,1,Seconds',
      'Logging Interval (s),1',
      'dt=1.0',
      'Sample time;1;s',
      'INTERVAL 1 SEC',
      'Time Interval = 1000 mS',
      'Record interval;00:00:01',
    ] as const
  ).map(
    (told): InstrumentExport => ({
      name: `sample numbers and "${told}"`,
      ...slow,
      hasVolts: false,
      content: lines(
        ['Logger', told, '', 'No,Current (A)'],
        SLOW.map((r) => `${r.i},${r.a.toFixed(3)}`),
      ),
    }),
  ),
  {
    name: 'one column of milliamps and a rate',
    ...slow,
    hasVolts: false,
    content: lines(
      ['Sample rate: 1 Hz', 'Current (mA)'],
      SLOW.map((r) => (r.a * 1000).toFixed(1)),
    ),
  },
  {
    name: 'a clock with points between its parts',
    ...slow,
    content: lines(
      ['Aika;J\u00e4nnite (V);Virta (A)'],
      SLOW.map((r) => `${clock(r.t).replaceAll(':', '.')};${comma(r.v, 3)};${comma(r.a, 3)}`),
    ),
  },
  {
    name: 'date and time as digits without marks',
    ...slow,
    content: lines(
      ['Date,Time,Voltage,Current'],
      SLOW.map(
        (r) => `20310401,${clock(r.t).replaceAll(':', '')},${r.v.toFixed(3)},${r.a.toFixed(3)}`,
      ),
    ),
  },
  {
    name: 'a scope table whose unit stands in the preamble',
    ...fast,
    hasVolts: false,
    content: lines(
      ['Source,CH1', 'Vertical Units,A', 'Horizontal Units,s', 'Time,CH1'],
      FAST.map((r) => `${r.t.toFixed(3)},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'a meter table whose unit stands in the preamble',
    ...slow,
    hasVolts: false,
    content: lines(
      ['Instrument: handheld', 'Function: DC Current', 'Unit: mA', 'No.,Time,Reading'],
      SLOW.map((r) => `${r.i + 1},${clock(r.t)},${(r.a * 1000).toFixed(1)}`),
    ),
  },
  {
    name: 'log lines of a program',
    ...fast,
    content: lines(
      [],
      FAST.map(
        (r) =>
          `[${stamp(r.t)}] INFO supply: V=${r.v.toFixed(3)}V I=${r.a.toFixed(3)}A P=${(r.v * r.a).toFixed(3)}W`,
      ),
    ),
  },
  {
    name: 'log lines with words, numbers and units apart',
    ...fast,
    content: lines(
      [],
      FAST.map((r) => `${stamp(r.t)} voltage ${r.v.toFixed(3)} V current ${r.a.toFixed(3)} A`),
    ),
  },
  {
    name: 'headings in another script with units in brackets',
    ...fast,
    content: lines(['\u65f6\u95f4(s),\u7535\u538b(V),\u7535\u6d41(A)'], FAST.map(row3)),
  },
  {
    name: 'headings in a code page that is not UTF-8',
    ...fast,
    content: Buffer.concat([
      Buffer.from([0xca, 0xb1, 0xbc, 0xe4]),
      Buffer.from('(s),'),
      Buffer.from([0xb5, 0xe7, 0xd1, 0xb9]),
      Buffer.from('(V),'),
      Buffer.from([0xb5, 0xe7, 0xc1, 0xf7]),
      Buffer.from(`(A)\n${FAST.map(row3).join('\n')}\n`),
    ]),
  },
  {
    name: 'a clock and an elapsed time',
    ...fast,
    content: lines(
      ['Timestamp,Elapsed (s),Voltage (V),Current (A)'],
      FAST.map((r) => `${stamp(r.t)},${row3(r)}`),
    ),
  },
  {
    name: 'a remark in a last column',
    ...fast,
    content: lines(
      ['Time,Voltage,Current,Remark'],
      FAST.map((r) => `${row3(r)},${r.i === 80 ? '"on, by hand"' : ''}`),
    ),
  },
  {
    name: 'a name of a month in the date',
    ...slow,
    content: lines(
      ['Date,Time,Voltage,Current'],
      SLOW.map((r) => `01-Apr-2031,${clock(r.t)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'a clock with colons before the milliseconds',
    ...fast,
    content: lines(
      ['Time,Voltage,Current'],
      FAST.map((r) => `${clock(r.t)}:${milli(r.t)},${r.v.toFixed(3)},${r.a.toFixed(3)}`),
    ),
  },
  {
    name: 'a row for each reading, quantity told beside it',
    ...slow,
    content: lines(
      ['Time,Parameter,Value,Unit'],
      SLOW.flatMap((r) => [
        `${r.t.toFixed(2)},Voltage,${r.v.toFixed(3)},V`,
        `${r.t.toFixed(2)},Current,${r.a.toFixed(3)},A`,
      ]),
    ),
  },
  {
    name: 'numbers with narrow blanks between thousands',
    ...fast,
    content: lines(
      ['Time (ms);U (mV);I (mA)'],
      FAST.map((r) => `${spaced(r.t * 1000)};${spaced(r.v * 1000)};${comma(r.a * 1000, 1)}`),
    ),
  },
  {
    name: 'decimal commas with three places everywhere, levels above 1',
    ...fast,
    content: lines(
      ['t;U;I'],
      FAST.map((r) => `${comma(r.t, 3)};${comma(r.v, 3)};${comma(r.a, 3)}`),
    ),
  },
  {
    name: 'a byte order mark before a sep= line',
    ...fast,
    content: lines(['\ufeffsep=,', '"Time (s)","Voltage (V)","Current (A)"'], FAST.map(row3)),
  },
  {
    name: 'volts and amps polled in turn',
    ...slow,
    samples: 100,
    content: lines(
      ['Time (s),Voltage (V),Current (A),Output,Protection'],
      SLOW.map((r) => `${r.t},${r.v.toFixed(3)},${r.a.toFixed(3)},${r.t < 4 ? 0 : 1},none`),
    ),
  },
  {
    name: 'microseconds since power-up',
    ...fast,
    content: lines(
      ['micros,bus_mV,current_mA'],
      FAST.map(
        (r) =>
          `${1_234_567 + Math.round(r.t * 1e6)},${(r.v * 1000).toFixed(0)},${(r.a * 1000).toFixed(2)}`,
      ),
    ),
  },
  ...(
    [
      'Time',
      'Elapsed',
      't',
      't(s)',
      'Seconds',
      'X',
      'Time Stamp',
      'Tid',
      'Tempo',
      'Time_s',
      'Elapsed Time [s]',
      'sec',
      'Rel. Time',
      'Relative time (s)',
      'Test time',
      'Run Time(s)',
      'T',
      'TIME_SEC',
      'Time/s',
      'Tijd',
      'Czas',
      'time (seconds)',
      'Log time',
      'x (s)',
    ] as const
  ).map(
    (heading): InstrumentExport => ({
      name: `times under "${heading}"`,
      ...fast,
      content: lines(
        [`${heading};Vbus;Ibus`],
        FAST.map((r) => `${comma(r.t, 2)};${comma(r.v, 3)};${comma(r.a, 3)}`),
      ),
    }),
  ),
  ...(
    [
      'Volts',
      'Voltage(V)',
      'CH1 Volt',
      'Ch1_V',
      'Measured voltage',
      'DC Voltage',
      'U',
      'U [V]',
      'Vout',
      'V(V)',
      'Vbus',
      'Bus Voltage',
      'Feed (V)',
      'Spannung',
      'Tension (V)',
      'Output voltage',
      'Vmeas',
      'V_meas',
      'CH1 V',
      'PS1 Voltage',
      'VOLT',
      'DCV',
      'Udc',
      'Readback V',
      'Voltage reading',
      'OUT1 V',
      'Vin at board',
      'Napi\u0119cie [V]',
    ] as const
  ).map(
    (heading): InstrumentExport => ({
      name: `volts under "${heading}"`,
      ...fast,
      content: lines([`Time,${heading},Current`], FAST.map(row3)),
    }),
  ),
];
