import { WakelineError } from '../errors.ts';
import { formatQuantity } from '../units/format.ts';
import type {
  InjectionInput,
  InjectionPlan,
  InjectionRefusal,
  InjectionStep,
} from './injection.ts';
import { splitPower } from './kelvin.ts';

/** Where injecting starts (common practice, no source). */
const START_V = { least: 0.3, most: 0.5 } as const;
/** Limits that are stepped through, amps, and how long each is held (common practice, no source). */
const LIMITS_A = [0.5, 1, 2, 3, 5, 8] as const;
/** Seconds a press lasts at most, by the watts that the board is to take; not known = the shortest. */
const HOLDS = [
  { upToW: 0.5, holdS: 30 },
  { upToW: 2, holdS: 10 },
] as const;
const HOLD_S = 5;
/** One raise of the volts, small and large, and the ceiling up to which it is small. */
const STEP_V = { small: 0.05, large: 0.1, smallUpTo: 1.5 } as const;
/** Leads get warm beyond this (common practice, no source). */
const LEADS_WARM_W = 5;
const LEADS_USUAL_OHM = 0.2;

export const INJECTION_CAUTIONS: readonly string[] = [
  'Hold to run, eyes on the board: released is off.',
  'Touch nothing: a shorted ceramic passes 150 °C in seconds. Hot parts burn skin and boards.',
  'Never with a cell attached; screens, drives and peripherals unplugged.',
  'Some freeze sprays and alcohol burn: no open flame, extraction on.',
];

/**
 * Plans current injection into a shorted rail: start volts, the ceiling that nothing on the rail may
 * see more than, current steps with where their power goes, what the guard is told. Refuses with
 * everything that is in the way. Volts and limits are common practice, no source; power is I squared
 * R.
 */
export function planInjection(input: InjectionInput): InjectionPlan {
  const refusals = refusalsOf(input);
  const lowest = lowestOf(input);
  if (refusals.length > 0 || lowest === null) {
    return { ok: false, refusals, cautions: INJECTION_CAUTIONS };
  }
  const ceilingV = Math.min(lowest.standsV, input.supply.mostV);
  const startV = Math.max(
    input.supply.leastV,
    Math.min(ceilingV, ceilingV < 1 ? START_V.least : START_V.most),
  );
  const steps = stepsOf(input, startV);
  const mostA = steps.at(-1)?.limitA ?? input.supply.mostA;
  const volts = (value: number) => formatQuantity(value, 'V', null, { prefix: 0 });
  const reasons = [
    `Ceiling ${volts(ceilingV)}: ${lowest.name} stands ${volts(lowest.standsV)}, reached ${lowest.how}.`,
    `Start at ${volts(startV)} with the limit low; raise the limit before the volts.`,
    ...(input.mostA !== null && mostA <= input.mostA && input.mostA < input.supply.mostA
      ? [
          `No more than ${formatQuantity(input.mostA, 'A', null, { prefix: 0 })}: something in the current’s way stands no more.`,
        ]
      : []),
    ...(input.ohmToGround === null
      ? ['Ohms to ground were not measured: the current to expect is not known.']
      : [
          `${formatQuantity(input.ohmToGround, 'Ω', null, { digits: 3 })} to ground: ${expectation(input, startV)}`,
        ]),
  ];
  const cautions = [
    ...INJECTION_CAUTIONS,
    ...(steps.some(({ leadsW }) => leadsW !== null && leadsW > LEADS_WARM_W)
      ? ['The leads take more than 5 W in the upper steps: shorter or thicker ones.']
      : []),
  ];
  return {
    ok: true,
    startV,
    ceilingV,
    ceilingBecause: `${lowest.name}, reached ${lowest.how}`,
    steps,
    stepV: ceilingV <= STEP_V.smallUpTo ? STEP_V.small : STEP_V.large,
    guard: { mostV: ceilingV, mostA },
    reasons,
    cautions,
  };
}

/**
 * Checks volts that a person asks for while injecting.
 * @throws WakelineError `out-of-range` above the ceiling or not above 0.
 */
export function checkInjectionVolts(
  wantedV: number,
  { ceilingV, ceilingBecause }: { ceilingV: number; ceilingBecause: string },
): number {
  if (wantedV > 0 && wantedV <= ceilingV * (1 + 1e-9)) return wantedV;
  throw new WakelineError({
    code: 'out-of-range',
    what: `${wantedV} V is not between 0 and the ceiling of ${ceilingV} V`,
    where: `injecting, ceiling from ${ceilingBecause}`,
    todo: `Stay at or below ${ceilingV} V, or lift what sets the ceiling and plan again.`,
  });
}

function refusalsOf(input: InjectionInput) {
  const found: { why: InjectionRefusal; text: string; todo: string }[] = [];
  const refuse = (why: InjectionRefusal, text: string, todo: string) =>
    found.push({ why, text, todo });
  if (input.cellAttached === true) {
    refuse('cell-attached', 'A cell is marked attached.', 'Unplug it, then mark it so.');
  }
  if (input.cellAttached === null) {
    refuse(
      'cell-unknown',
      'Nobody said whether a cell is attached.',
      'Look, unplug it, and mark it so.',
    );
  }
  for (const { rail, other, found: how } of input.joints) {
    if (how === 'joined') {
      refuse(
        'rails-joined',
        `${rail} and ${other} are joined.`,
        'Find what joins them first, with the output off: current would reach both.',
      );
    }
    if (how === 'not-measured' && input.isCore) {
      refuse(
        'joint-not-measured',
        `${input.rail} is a core, and ohms between ${rail} and ${other} were not measured.`,
        'Measure them with the output off and the rails discharged.',
      );
    }
  }
  if (input.isCore && input.joints.length === 0) {
    refuse(
      'joint-not-measured',
      `${input.rail} is a core, and no joint to the rail that feeds it was measured.`,
      'Measure ohms between the two with the output off and the rails discharged.',
    );
  }
  const lowest = lowestOf(input);
  if (lowest === null) {
    refuse(
      'nothing-known',
      `Nothing is known of what ${input.rail} reaches.`,
      'Give at least its nominal volts.',
    );
  } else if (lowest.standsV < input.supply.leastV) {
    refuse(
      'supply-cannot-go-low',
      `The supply gives at least ${input.supply.leastV} V and ${lowest.name} stands ${lowest.standsV} V.`,
      'Use a supply that goes lower.',
    );
  }
  return found;
}

function lowestOf({ reach }: InjectionInput) {
  const sound = reach.filter(({ standsV }) => standsV > 0);
  return sound.reduce<(typeof sound)[number] | null>(
    (best, each) => (best === null || each.standsV < best.standsV ? each : best),
    null,
  );
}

function stepsOf(input: InjectionInput, volts: number): InjectionStep[] {
  const { ohmToGround } = input;
  const leadOhm = input.leadOhm ?? LEADS_USUAL_OHM;
  const mostA = Math.min(input.supply.mostA, input.mostA ?? Number.POSITIVE_INFINITY);
  const limits = LIMITS_A.filter((limit) => limit <= mostA);
  return (limits.length === 0 ? [mostA] : limits).map((limitA) => {
    if (ohmToGround === null) {
      return { limitA, holdS: HOLD_S, expectedA: null, boardW: null, leadsW: null };
    }
    const expectedA = Math.min(limitA, volts / (ohmToGround + leadOhm));
    const supplyV = expectedA * (ohmToGround + leadOhm);
    const split = splitPower(supplyV, expectedA, leadOhm, null);
    const boardW = split?.boardW ?? 0;
    return {
      limitA,
      holdS: HOLDS.find(({ upToW }) => boardW <= upToW)?.holdS ?? HOLD_S,
      expectedA,
      boardW,
      leadsW: split?.leadsW ?? 0,
    };
  });
}

function expectation({ ohmToGround, leadOhm }: InjectionInput, volts: number): string {
  const leads = leadOhm ?? LEADS_USUAL_OHM;
  const amps = volts / ((ohmToGround ?? 0) + leads);
  const said = leadOhm === null ? `about ${leads} Ω of leads` : `${leads} Ω of leads`;
  return `with ${said} it draws up to ${formatQuantity(amps, 'A', null, { digits: 2 })} at ${volts} V.`;
}
