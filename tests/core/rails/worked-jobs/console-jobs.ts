import type { WorkedJob } from './worked-job.ts';

/** A game console that nobody makes: standby and main feed, two big cores, a fused fan. */
const CONSOLE = `# stated input V,12
rail,volts,tolerance,fed by,through,enabled by,states,points,ohms to ground,diode reading,core
SB_5V,5,5%,,,,,,4k ± 400 (6),0.47 ± 0.01 (6),
P12,12,5%,,,,on,,4.2k ± 300 (6),0.5 ± 0.01 (6),
SB_3V3,3.3,5%,SB_5V,regulator,,,,900 ± 80 (6),0.4 ± 0.01 (6),
S_5V,5,5%,P12,converter,SB_3V3,on,,500 ± 40 (6),0.38 ± 0.01 (6),
S_3V3,3.3,5%,P12,converter,S_5V,on,,210 ± 20 (6),0.35 ± 0.01 (6),
MEM,1.35,3%,P12,converter,S_3V3,on,,9 ± 0.9 (6),0.02 (6),no
CPU,1.05,3%,P12,converter,MEM,on,,0.35 ± 0.02 (6),0.000 (6),yes
GPU,1.0,3%,P12,converter,CPU,on,,0.16 ± 0.01 (6),0.000 (6),yes
IO_1V8,1.8,3%,S_5V,converter,S_3V3,on,,140 ± 12 (6),0.3 ± 0.01 (6),
PICT_5V,5,5%,S_5V,switch,,on,,520 ± 45 (6),0.38 ± 0.01 (6),
FAN_12,12,5%,P12,link,,on,,4.2k ± 300 (6),0.5 ± 0.01 (6),
`;

const on = { board: CONSOLE, state: 'on' } as const;

/** Single and double faults of the console. */
export const CONSOLE_JOBS: readonly WorkedJob[] = [
  {
    ...on,
    name: 'the graphics core at two hundredths of an ohm, where 0.16 is healthy',
    draw: 'limited',
    readings: ['SB_5V 5.02V', 'P12 0.8V', 'P12 4k15ohm', 'CPU 0.34ohm', 'GPU 0.02ohm'],
    truth: ['short:GPU'],
    verdicts: { GPU: 'shorted', CPU: 'as-known-good', SB_5V: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'the graphics core at 0.16 ohm, which is healthy: the processor converter does not run',
    readings: [
      'P12 12.1V',
      'GPU 0.41ohm leads=0.25',
      'GPU 0V',
      'GPU.en 0V',
      'CPU 0V',
      'CPU.en 3.3V',
      'CPU.in 12V',
      'CPU 0.36ohm',
    ],
    truth: ['source:CPU'],
    verdicts: { GPU: 'missing', CPU: 'missing', P12: 'present' },
    within: 1,
  },
  {
    board: CONSOLE,
    state: 'standby',
    name: 'in standby, with a screen plugged in that feeds the picture supply backwards',
    readings: ['SB_5V 5V', 'SB_3V3 3.3V', 'PICT_5V 4.7V', 'S_5V 4.1V', 'P12 0.1V'],
    truth: [],
    verdicts: { PICT_5V: 'back-fed', S_5V: 'back-fed', P12: 'missing', SB_5V: 'present' },
  },
  {
    ...on,
    name: 'the big feed never comes: standby is there, twelve volts are not',
    draw: 'none',
    readings: ['SB_5V 5V', 'SB_3V3 3.3V', 'P12 0V', 'P12 4k3ohm'],
    truth: ['source:P12'],
    verdicts: { P12: 'missing', SB_5V: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'memory shorted, and the 5 V converter before it dead',
    liquid: true,
    readings: [
      'P12 12V',
      'S_5V 0V',
      'S_5V 490ohm',
      'S_5V.en 3.3V',
      'S_5V.in 12V',
      'MEM 0.3ohm',
      'S_3V3 208ohm',
    ],
    truth: ['source:S_5V', 'short:MEM'],
    within: 3,
    verdicts: { S_5V: 'missing', MEM: 'shorted' },
  },
  {
    ...on,
    name: 'a blown fan fuse',
    readings: ['P12 12V', 'CPU 1.05V', 'GPU 1V', 'FAN_12 0V', 'FAN_12 4k2ohm'],
    truth: ['link:FAN_12:P12'],
    verdicts: { FAN_12: 'missing', P12: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'memory a tenth low, healthy in ohms, everything behind it up',
    readings: ['MEM 1.22V', 'MEM 9.1ohm', 'CPU 1.05V', 'GPU 1V', 'P12 12V', 'MEM.in 12V'],
    truth: ['source:MEM'],
    verdicts: { MEM: 'low', CPU: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'a shorted fan drags twelve volts down: fuse and fan read alike',
    draw: 'limited',
    readings: ['P12 0.4V', 'P12 0.9ohm', 'FAN_12 0.6ohm', 'CPU 0.35ohm'],
    truth: ['short:FAN_12'],
    verdicts: { P12: 'shorted', FAN_12: 'shorted', CPU: 'as-known-good' },
  },
  {
    ...on,
    name: 'twelve volts joined to the processor core',
    readings: ['P12 0.4ohm', 'CPU 0.36ohm', 'CPU-P12 0.04ohm', 'GPU 0.16ohm'],
    truth: ['joined:CPU:P12'],
    verdicts: { P12: 'shorted', CPU: 'as-known-good', GPU: 'as-known-good' },
    within: 1,
    proposes: [[2, 'between:CPU:P12']],
  },
];
