import type { WorkedJob } from './worked-job.ts';

/** A machine controller that nobody makes: 24 V, a fused field side, split analogue supplies. */
const CONTROLLER = `# stated input V,24
# runs flat,yes
rail,volts,tolerance,fed by,through,enabled by,states,points,ohms to ground,diode reading,core
PWR24,24,10%,,,,,,3.1k ± 300 (4),0.58 ± 0.02 (4),
P24,24,10%,PWR24,link,,,,3.1k ± 300 (4),0.58 ± 0.02 (4),
FIELD24,24,10%,PWR24,link,,,,3.1k ± 300 (4),0.58 ± 0.02 (4),
P5,5,5%,P24,converter,,,,330 ± 30 (4),0.36 ± 0.01 (4),
P3V3,3.3,5%,P5,regulator,,,,150 ± 15 (4),0.31 ± 0.01 (4),
CORE,1.2,4%,P5,converter,P3V3,,,8 ± 1 (4),0.05 (4),yes
P15,15,5%,P24,converter,P5,,,5k ± 400 (4),0.55 ± 0.02 (4),
N15,-15,5%,P24,converter,P5,,,5.5k ± 400 (4),,
REF10,10,1%,P15,regulator,,,,2.4k ± 200 (4),0.5 ± 0.02 (4),
COM5,5,5%,P5,converter,,,,1.8k ± 150 (4),0.44 ± 0.02 (4),
RLY24,24,10%,P24,switch,CORE,run,,2.7k ± 250 (4),0.57 ± 0.02 (4),
`;

const run = { board: CONTROLLER, state: 'run' } as const;

/** Single and double faults of the controller. */
export const CONTROLLER_JOBS: readonly WorkedJob[] = [
  {
    ...run,
    name: "the electronics' fuse open, the field's whole",
    draw: 'none',
    readings: ['P5 0V', 'PWR24 24.1V', 'FIELD24 24V', 'P24 0.1V', 'P24 3k2ohm'],
    truth: ['link:P24:PWR24'],
    verdicts: { PWR24: 'present', FIELD24: 'present', P24: 'missing' },
    within: 1,
  },
  {
    ...run,
    name: 'field wiring left on feeds the board backwards while it is off',
    readings: ['FIELD24 22.5V unfed', 'PWR24 22.4V unfed', 'P5 0V unfed'],
    truth: [],
    within: 1,
    verdicts: { FIELD24: 'back-fed', PWR24: 'back-fed' },
  },
  {
    ...run,
    name: 'both fuses open: volts before them, none behind either',
    readings: ['PWR24 24V', 'P24 0V', 'FIELD24 0V', 'P24 3k1ohm', 'FIELD24 3k1ohm'],
    truth: ['link:P24:PWR24', 'link:FIELD24:PWR24'],
    // One slip of the probe explains as much; a second reading settles it.
    double: 0.15,
    verdicts: { PWR24: 'present', P24: 'missing', FIELD24: 'missing' },
    within: 3,
  },
  {
    ...run,
    name: 'a surge protector shorted across the input',
    draw: 'limited',
    readings: ['PWR24 0.6V', 'PWR24 1.1ohm', 'P24 1.3ohm', 'FIELD24 1.3ohm', 'P5 335ohm'],
    truth: ['short:PWR24'],
    verdicts: { PWR24: 'shorted', P5: 'as-known-good' },
    within: 1,
  },
  {
    ...run,
    name: 'the negative supply missing, its positive twin there',
    readings: [
      'P24 24V',
      'P5 5V',
      'P15 15.1V',
      'N15 -0.2V',
      'N15 5k4ohm',
      'N15.en 5V',
      'N15.in 24V',
    ],
    truth: ['source:N15'],
    verdicts: { N15: 'missing', P15: 'present' },
    within: 1,
  },
  {
    ...run,
    name: 'a reference four per cent low: within a rail, outside a reference',
    readings: ['P15 15V', 'N15 -15.05V', 'REF10 9.6V', 'REF10 2k4ohm', 'REF10.in 15V'],
    truth: ['source:REF10'],
    verdicts: { REF10: 'low', N15: 'present', P15: 'present' },
    within: 1,
  },
  {
    board: CONTROLLER,
    state: 'stop',
    name: 'stopped: the relay supply is off, as it belongs',
    readings: ['P24 24V', 'P5 5V', 'P3V3 3.3V', 'CORE 1.2V', 'RLY24 0V', 'N15 -15V', 'P15 15V'],
    truth: [],
    verdicts: { RLY24: 'missing', CORE: 'present' },
  },
  {
    ...run,
    name: 'running: the relay supply is not asked for',
    readings: ['P24 24V', 'CORE 1.2V', 'RLY24 0V', 'RLY24.en 0V', 'RLY24 2k6ohm'],
    truth: ['enable:RLY24'],
    verdicts: { RLY24: 'missing', CORE: 'present' },
    within: 1,
  },
  {
    ...run,
    name: "a limit set too low: the board's own start pulls the feed down again and again",
    draw: 'limited',
    readings: ['PWR24 17.5V', 'PWR24 3k2ohm', 'P24 17.4V', 'P5 5V', 'FIELD24 17.5V'],
    truth: ['source:PWR24'],
    verdicts: { PWR24: 'low', P24: 'low', P5: 'present' },
    within: 1,
  },
  {
    ...run,
    name: 'the negative supply shorted and the communication supply dead',
    liquid: true,
    readings: [
      'P24 24V',
      'P5 5V',
      'P15 15V',
      'N15 -0.05V',
      'N15 1.2ohm',
      'COM5 0V',
      'COM5 1k8ohm',
      'COM5.in 5V',
    ],
    truth: ['short:N15', 'source:COM5'],
    within: 2,
    verdicts: { N15: 'shorted', COM5: 'missing' },
  },
  {
    ...run,
    name: 'a fuse holder that has gone ohmic: twenty-four before it, sixteen behind it under load',
    readings: ['PWR24 24V', 'P24 16.2V', 'P5 5V', 'P24 3k1ohm', 'FIELD24 24V'],
    truth: ['link:P24:PWR24'],
    verdicts: { PWR24: 'present', P24: 'low', P5: 'present' },
    within: 1,
  },
  {
    ...run,
    name: 'millivolts typed as volts',
    readings: ['P5 5V', 'P3V3 3300V', 'CORE 0V', 'CORE.en 3.3V', 'CORE.in 5V', 'CORE 8.1ohm'],
    truth: ['source:CORE'],
    verdicts: { CORE: 'missing' },
    told: [/P3V3.*millivolts/],
    within: 1,
  },
  {
    ...run,
    name: 'one point read twice with two results',
    readings: ['P24 24V', 'P5 0V', 'P5 5.01V', 'P3V3 0V', 'P3V3 148ohm', 'P3V3.in 5V'],
    truth: ['source:P3V3'],
    verdicts: { P3V3: 'missing' },
    told: [/P5 was read (present and missing|missing and present)/],
    within: 1,
  },
  {
    board: `rail,volts,tolerance,fed by,through,enabled by,ohms to ground
IN,24,10%,,,,3k (2)
A5,5,5%,IN,converter,B3,400 (2)
B3,3.3,5%,IN,converter,A5,200 (2)
C1V8,1.8,5%,A5,converter,B3,100 (2)
`,
    state: null,
    name: 'two converters that enable each other: both down, one of them shorted',
    readings: ['IN 24V', 'A5 0V', 'B3 0V', 'B3 0.5ohm', 'A5 395ohm'],
    truth: ['short:B3'],
    verdicts: { A5: 'missing', B3: 'shorted', IN: 'present' },
    within: 1,
  },
];
