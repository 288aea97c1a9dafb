import type { WorkedJob } from './worked-job.ts';

/** A tablet that nobody makes, of which no good board was ever measured. */
const UNMEASURED = `rail,volts,tolerance,fed by,through,enabled by,states
CHG,5,5%,,,,charging
CELL,3.8,12%,,,,
VSYS,3.8,12%,CELL + CHG,switch,,
AON_1V8,1.8,4%,VSYS,converter,,
CORE_A,0.9,4%,VSYS,converter,AON_1V8,on
CORE_B,0.8,4%,VSYS,converter,CORE_A,on
RAM_1V1,1.1,4%,VSYS,converter,AON_1V8,on
IO_3V3,3.3,5%,VSYS,regulator,CORE_A,on
TOUCH_3V0,3.0,4%,IO_3V3,regulator,,on
LAMP_18,18,10%,VSYS,converter,IO_3V3,on
`;

/** A drive amplifier's control part that nobody makes: two fuses in a row, rails beside each other. */
const DRIVE = `rail,volts,tolerance,fed by,through,enabled by,ohms to ground,diode reading
TERM24,24,15%,,,,4.7k ± 400 (3),0.6 ± 0.02 (3)
F24,24,15%,TERM24,link,,4.7k ± 400 (3),0.6 ± 0.02 (3)
P12,12,5%,F24,converter,,2.2k ± 200 (3),0.5 ± 0.02 (3)
P5,5,5%,F24,converter,,410 ± 40 (3),0.4 ± 0.02 (3)
P3V3,3.3,4%,P5,regulator,,180 ± 18 (3),0.35 ± 0.02 (3)
FAN12,12,5%,P12,link,,2.2k ± 200 (3),0.5 ± 0.02 (3)
BUS5,5,5%,P5,switch,P3V3,900 ± 90 (3),0.42 ± 0.02 (3)
ENC5,5,5%,P5,link,,410 ± 40 (3),0.4 ± 0.02 (3)
`;

const tablet = { board: UNMEASURED, state: 'on' } as const;
const drive = { board: DRIVE, state: null } as const;

/** Boards without known-good, bridges, blown fuses and faults that bring a second one. */
export const MIXED_JOBS: readonly WorkedJob[] = [
  {
    ...tablet,
    name: 'nothing known-good: under an ohm on the system rail is a short, on the cores it is nothing',
    draw: 'limited',
    readings: ['CORE_A 0.4ohm', 'CORE_B 0.3ohm', 'CORE_B 0.000diode', 'VSYS 0.7ohm', 'CELL 0.6V'],
    truth: ['short:VSYS'],
    verdicts: { VSYS: 'shorted', CORE_A: 'cannot-tell', CORE_B: 'cannot-tell' },
    within: 1,
  },
  {
    ...tablet,
    name: 'nothing known-good: thirty ohms on 3.3 V may be healthy and blame nothing',
    readings: [
      'IO_3V3 34ohm',
      'VSYS 3.8V',
      'CORE_A 0.9V',
      'IO_3V3 0V',
      'IO_3V3.en 1.8V',
      'IO_3V3.in 3.8V',
    ],
    truth: ['source:IO_3V3'],
    verdicts: { IO_3V3: 'missing', CORE_A: 'present' },
    within: 2,
  },
  {
    ...tablet,
    name: 'the second core missing, the first there and asking for it',
    readings: ['VSYS 3.79V', 'CORE_A 0.9V', 'CORE_B 0V', 'CORE_B.en 1.8V', 'CORE_B.in 3.79V'],
    truth: ['source:CORE_B'],
    verdicts: { CORE_B: 'missing' },
    within: 2,
  },
  {
    ...tablet,
    name: 'the lamp boost gives the system volts: it does not switch',
    readings: ['VSYS 3.8V', 'IO_3V3 3.3V', 'LAMP_18 3.4V', 'LAMP_18.en 3.3V'],
    truth: ['source:LAMP_18'],
    verdicts: { LAMP_18: 'low', IO_3V3: 'present' },
    within: 1,
  },
  {
    ...tablet,
    name: 'a cell that cannot carry the start: four volts at rest, three under load',
    draw: 'some',
    readings: ['CELL 4V @charging', 'CELL 3.0V', 'VSYS 2.95V', 'AON_1V8 1.8V', 'CORE_A 0.9V'],
    truth: ['source:CELL'],
    verdicts: { VSYS: 'low', AON_1V8: 'present' },
    within: 1,
  },
  {
    ...drive,
    name: 'a fuse blown by the short behind it: volts before, none after, under an ohm there',
    readings: ['TERM24 24V', 'F24 0V', 'TERM24 4k6ohm', 'F24 0.6ohm'],
    truth: ['link:F24:TERM24', 'short:F24'],
    verdicts: { TERM24: 'present', F24: 'shorted' },
    within: 2,
  },
  {
    ...drive,
    name: 'five volts bridged into three: the lower rail stands at four and a half',
    readings: ['P5 4.95V', 'P3V3 4.6V', 'P3V3 95ohm', 'P5 98ohm'],
    truth: ['joined:P3V3:P5'],
    verdicts: { P3V3: 'high' },
    within: 1,
  },
  {
    ...drive,
    name: 'twelve volts bridged into the bus supply beside it, which nothing joins in the tree',
    liquid: true,
    readings: ['P5 5V', 'BUS5 11.8V', 'P12 11.9V', 'BUS5-P12 0.5ohm'],
    truth: ['joined:BUS5:P12'],
    verdicts: { BUS5: 'high', P12: 'present' },
    within: 1,
    proposes: [[3, 'between:BUS5:P12', 'ohms:BUS5']],
  },
  {
    ...drive,
    name: 'an encoder lead shorts five volts: link and rail read alike, three volts follows',
    draw: 'some',
    readings: ['TERM24 24V', 'P12 12V', 'P3V3 0V', 'P5 0.3V', 'P5 0.9ohm', 'ENC5 0.5ohm'],
    truth: ['short:ENC5'],
    verdicts: { P5: 'shorted', ENC5: 'shorted', P12: 'present' },
    within: 1,
  },
  {
    ...drive,
    name: 'a feed connected the wrong way round: the input held a diode below ground',
    draw: 'limited',
    readings: ['TERM24 -0.7V', 'TERM24 4k7ohm', 'F24 4k7ohm'],
    truth: ['source:TERM24'],
    verdicts: { TERM24: 'missing', F24: 'as-known-good' },
    within: 1,
    told: [/TERM24.*below ground/],
  },
  {
    ...drive,
    name: 'the fan link open and the bus switch not asked for',
    readings: [
      'P12 12V',
      'FAN12 0V',
      'FAN12 2k2ohm',
      'P5 5V',
      'P3V3 3.3V',
      'BUS5 0V',
      'BUS5.en 0V',
      'BUS5 890ohm',
    ],
    truth: ['link:FAN12:P12', 'enable:BUS5'],
    verdicts: { FAN12: 'missing', BUS5: 'missing' },
    within: 2,
  },
  {
    ...drive,
    name: 'a dead probe: nothing read where everything behind it is there',
    readings: ['F24 0V', 'P5 5V', 'P3V3 3.3V', 'P12 12V', 'BUS5 5V'],
    truth: [],
    verdicts: { F24: 'missing', P5: 'back-fed', P3V3: 'present' },
    told: [/F24|P5/],
  },
  {
    ...drive,
    name: 'two shorts on two outputs of one input, each with its own converter',
    liquid: true,
    readings: ['F24 24V', 'P12 0V', 'P5 0V', 'P12 0.8ohm', 'P5 1.1ohm', 'FAN12 1.2ohm'],
    truth: ['short:P12', 'short:P5'],
    verdicts: { P12: 'shorted', P5: 'shorted', F24: 'present' },
    within: 3,
  },
];
