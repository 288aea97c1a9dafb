/** One invented job of the demo: which faulty board comes in, and what a technician finds. */
export interface Scenario {
  readonly board: string;
  readonly model: string;
  readonly serial: string;
  readonly customer: string;
  readonly symptom: string;
  readonly liquid: 'No liquid' | 'Liquid' | 'Not known';
  readonly inputV: number;
  readonly limitA: number;
  /** Running draw of this board when it is sound. */
  readonly runningA: number;
  /** What the draw should be seen doing with the fault in. */
  readonly faultStages: readonly string[];
  /** How long the faulty board is watched. */
  readonly watchMs: number;
  readonly suspect: {
    readonly designator: string;
    readonly kind: string;
    readonly value: string;
    readonly rail: string;
    readonly found: string;
  };
  /** The line that a donor board's list holds for it; null = it comes from new stock. */
  readonly donorLine: string | null;
  /** The rail that a short is hunted along; null = there is no short on a rail of the tree. */
  readonly huntsAlong: string | null;
  /** Its place in the tree of causes. */
  readonly causeKey: string;
  readonly gaveAway: string;
  readonly cause: string;
  readonly provedBy: string;
  readonly misledBy: string;
}

const tern = (letter: string) => `Tern 14 notebook mainboard ${letter} (invented)`;
const shared = { inputV: 19, limitA: 2.5, runningA: 0.55 } as const;

/** Invented from end to end; the seed of the demo picks one. */
export const SCENARIOS: readonly Scenario[] = [
  {
    ...shared,
    board: 'tern-main-short',
    model: tern('B'),
    serial: 'TN14-0002',
    customer: 'Front desk, tray 2',
    symptom: 'Does not start after a drink was spilled near the hinge. Charger lamp stays on.',
    liquid: 'Liquid',
    faultStages: ['Stalled', 'Flat low draw'],
    watchMs: 9000,
    suspect: {
      designator: 'C112',
      kind: 'ceramic',
      value: '10u 25V',
      rail: 'MAIN_8V6',
      found: 'shorted, 2 ohm, white crust',
    },
    donorLine: 'C112 10u 25V X5R 1206 on MAIN_8V6',
    huntsAlong: 'MAIN_8V6',
    causeKey: 'short:main',
    gaveAway: 'Main rail low at a flat draw, 2 ohm to ground, lowest millivolts at C112',
    cause: 'C112 on the main rail shorted after liquid',
    provedBy: 'Main rail back at its volts, the draw climbs to running',
    misledBy: 'A flat draw that looks like a dead processor; the supply never came into its limit',
  },
  {
    ...shared,
    board: 'tern-input-short',
    model: tern('C'),
    serial: 'TN14-0003',
    customer: 'Front desk, tray 3',
    symptom: 'Dead. The charger clicks off the moment it is plugged in.',
    liquid: 'No liquid',
    faultStages: ['Current limit'],
    watchMs: 5000,
    suspect: {
      designator: 'C7',
      kind: 'ceramic',
      value: '4u7 50V',
      rail: 'board side of F1',
      found: 'shorted, below 0.1 ohm',
    },
    donorLine: 'C7 4u7 50V X7R 1210 on DC_FUSED',
    huntsAlong: null,
    causeKey: 'short:input',
    gaveAway: 'Current limit at almost no volts, a fraction of an ohm at the input',
    cause: 'C7 behind the input fuse shorted',
    provedBy: 'Input volts hold, the draw climbs to running',
    misledBy: 'Nothing: current limit at almost no volts',
  },
  {
    ...shared,
    board: 'tern-no-enable',
    model: tern('D'),
    serial: 'TN14-0004',
    customer: 'Front desk, tray 4',
    symptom: 'No sign of life. Came from another shop with a note that the charger is fine.',
    liquid: 'Not known',
    faultStages: ['Flat low draw', 'Stalled'],
    watchMs: 9000,
    suspect: {
      designator: 'R41',
      kind: 'resistor',
      value: '10k',
      rail: 'enable of U3',
      found: 'open, cracked end',
    },
    donorLine: null,
    huntsAlong: null,
    causeKey: 'power:enable',
    gaveAway: 'The always-on rail up, nothing behind U3',
    cause: 'R41 open: the enable of the system converter never came',
    provedBy: 'The rail behind U3 is up, the draw climbs to running',
    misledBy: 'The note about the charger',
  },
  {
    ...shared,
    board: 'tern-stall',
    model: tern('F'),
    serial: 'TN14-0006',
    customer: 'Front desk, tray 6',
    symptom: 'The keyboard lights up, the screen stays black. Dropped a week ago.',
    liquid: 'No liquid',
    faultStages: ['Stalled', 'Stepping', 'Flat low draw'],
    watchMs: 9000,
    suspect: {
      designator: 'U6',
      kind: 'converter',
      value: 'as marked',
      rail: 'between memory and core',
      found: 'gives nothing with input and enable present',
    },
    donorLine: null,
    huntsAlong: null,
    causeKey: 'power:converter',
    gaveAway: 'The first missing rail lies behind U6, its enable is there',
    cause: 'U6 dead: the rails stop half-way',
    provedBy: 'The missing rail is up, the draw climbs to running',
    misledBy: 'A flat draw in the middle, which alone says little',
  },
  {
    ...shared,
    board: 'tern-loop',
    model: tern('E'),
    serial: 'TN14-0005',
    customer: 'Front desk, tray 5',
    symptom:
      'The fan twitches every few seconds and nothing else happens. After an update was cut off.',
    liquid: 'No liquid',
    faultStages: ['Cycling', 'Stepping'],
    watchMs: 20_000,
    suspect: {
      designator: 'U20',
      kind: 'firmware memory',
      value: 'as marked',
      rail: 'SYS_3V3',
      found: 'content fails its check',
    },
    donorLine: null,
    huntsAlong: null,
    causeKey: 'logic:firmware',
    gaveAway: 'The same rise and fall every few seconds, every rail up for a moment',
    cause: 'U20 held broken firmware: the board gave up and tried again',
    provedBy: 'No more loop, the draw climbs to running',
    misledBy: 'Every rail comes up for a moment',
  },
];
