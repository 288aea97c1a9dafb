import type { WorkedJob } from './worked-job.ts';

/** A handset that nobody makes: one rail ORed from cell and charger, a boost for the display. */
const PHONE = `# stated input V,4
rail,volts,tolerance,fed by,through,enabled by,states,points,ohms to ground,diode reading,core
VBAT,4.0,8%,,,,on + charging,,150k ± 20k (4),0.52 ± 0.01 (4),
VBUS,5,5%,,,,charging,,80k ± 9k (4),0.6 ± 0.02 (4),
SYS,3.9,10%,VBAT + VBUS,converter,,,,38k ± 4k (4),0.38 ± 0.01 (4),
AON_1V8,1.8,4%,SYS,regulator,,,,5k ± 400 (4),0.36 ± 0.01 (4),
CPU,0.8,4%,SYS,converter,AON_1V8 + MEM_1V1,on + charging,,2.2 ± 0.2 (4),0.000 (4),yes
GPU,0.75,4%,SYS,converter,CPU,on + charging,,1.5 ± 0.15 (4),0.000 (4),yes
MEM_1V1,1.1,4%,SYS,converter,AON_1V8,on + charging,,25 ± 3 (4),0.11 ± 0.01 (4),no
IO_3V0,3.0,4%,SYS,regulator,CPU,on + charging,,7.9k ± 700 (4),0.41 ± 0.01 (4),
RF_3V4,3.4,5%,SYS,converter,IO_3V0,on,,900 ± 90 (4),0.33 ± 0.01 (4),
DISP_5V5,5.5,5%,SYS,converter,IO_3V0,on,,12k ± 1k (4),0.45 ± 0.01 (4),
CAM_2V8,2.8,4%,SYS,regulator,IO_3V0,on,,6k ± 500 (4),0.43 ± 0.01 (4),
`;

const on = { board: PHONE, state: 'on' } as const;

/** Single and double faults of the handset. */
export const PHONE_JOBS: readonly WorkedJob[] = [
  {
    ...on,
    name: 'a shorted capacitor behind the power path: the cell line healthy in ohms, at its limit in use',
    draw: 'limited',
    readings: ['VBAT 0.5V', 'VBAT 148kohm', 'SYS 0.9ohm'],
    truth: ['short:SYS'],
    verdicts: { SYS: 'shorted' },
    within: 1,
  },
  {
    board: PHONE,
    state: 'charging',
    name: 'it runs from the charger and dies on the cell: the other feed hides the dead one',
    readings: ['SYS 3.95V', 'CPU 0.8V', 'VBUS 5.05V', 'VBAT 0.1V', 'VBAT 151kohm'],
    truth: ['source:VBAT'],
    verdicts: { VBAT: 'missing', VBUS: 'present', SYS: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'no charger plugged in: its line is off, as it belongs, and says nothing',
    readings: ['VBUS 0V', 'VBAT 4V', 'SYS 0V', 'SYS 37k5ohm', 'SYS.in 4V'],
    truth: ['source:SYS'],
    verdicts: { VBUS: 'missing', SYS: 'missing', VBAT: 'present' },
  },
  {
    ...on,
    name: 'a core at two ohms and 0.000 is healthy: the regulator behind it is not',
    readings: [
      'CPU 0.000diode',
      'CPU 2.1ohm',
      'SYS 3.9V',
      'CPU 0.8V',
      'IO_3V0 0V',
      'IO_3V0 7k8ohm',
      'IO_3V0.en 1.8V',
      'IO_3V0.in 3.9V',
    ],
    truth: ['source:IO_3V0'],
    verdicts: { CPU: 'present', IO_3V0: 'missing', SYS: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'after the sea: the camera rail shorted and the display boost dead',
    liquid: true,
    readings: [
      'SYS 3.9V',
      'IO_3V0 3.0V',
      'CAM_2V8 0.01V',
      'CAM_2V8 0.6ohm',
      'DISP_5V5 3.5V',
      'DISP_5V5 11k9ohm',
      'DISP_5V5.en 3V',
      'RF_3V4 3.4V',
    ],
    truth: ['short:CAM_2V8', 'source:DISP_5V5'],
    within: 2,
    verdicts: { CAM_2V8: 'shorted', DISP_5V5: 'low' },
  },
  {
    ...on,
    name: 'a boost that does not switch passes its feed through, a diode below it',
    readings: [
      'IO_3V0 3V',
      'DISP_5V5 3.4V',
      'DISP_5V5 12k1ohm',
      'DISP_5V5.en 3V',
      'DISP_5V5.in 3.9V',
    ],
    truth: ['source:DISP_5V5'],
    verdicts: { DISP_5V5: 'low', IO_3V0: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'a leaking radio supply: up, warm, and a twentieth of the ohms of its like',
    draw: 'some',
    readings: [
      'SYS 3.88V',
      'CPU 0.8V',
      'IO_3V0 3V',
      'RF_3V4 3.3V',
      'RF_3V4 44ohm',
      'DISP_5V5 5.5V',
      'CAM_2V8 2.8V',
    ],
    truth: ['short:RF_3V4'],
    verdicts: { RF_3V4: 'low', SYS: 'present' },
    within: 1,
  },
  {
    ...on,
    name: 'nobody asks the processor to start',
    draw: 'some',
    readings: ['SYS 3.9V', 'AON_1V8 1.8V', 'MEM_1V1 1.1V', 'CPU 0V', 'CPU.en 0V', 'CPU 2.2ohm'],
    truth: ['enable:CPU'],
    verdicts: { CPU: 'missing', MEM_1V1: 'present' },
    within: 1,
    proposes: [[4, 'enable:CPU', 'ohms:CPU', 'input:CPU']],
  },
  {
    ...on,
    name: 'two wires: three tenths of leads taken off leave a healthy core and a shorted memory',
    readings: ['CPU 2.5ohm leads=0.3', 'MEM_1V1 0.38ohm leads=0.3', 'MEM_1V1 0.02V'],
    truth: ['short:MEM_1V1'],
    verdicts: { CPU: 'as-known-good', MEM_1V1: 'shorted' },
    within: 1,
  },
  {
    ...on,
    name: 'a core at two thirds of its known-good, by leads that nobody measured',
    readings: [
      'GPU 1.7ohm 2w',
      'GPU 0.75V',
      'RF_3V4 0V',
      'RF_3V4.en 3V',
      'RF_3V4.in 3.9V',
      'RF_3V4 880ohm',
    ],
    truth: ['source:RF_3V4'],
    verdicts: { GPU: 'present', RF_3V4: 'missing' },
    within: 1,
  },
];
