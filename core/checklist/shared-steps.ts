import { CAUTIONS } from './cautions.ts';
import type { StepData } from './template-step.ts';

/** Steps that several templates walk. Common practice of board repair, no source. */

export const takeIn: readonly StepData[] = [
  { step: 'see-the-fault', phase: 'Take in', title: 'Hear what happened, see the fault' },
  {
    step: 'ask-earlier-repairs',
    phase: 'Take in',
    title: 'Ask about earlier repairs, falls and liquid',
    needs: 'note',
  },
  { step: 'ask-what-matters', phase: 'Take in', title: 'Data or device: ask which matters' },
  {
    step: 'note-accessories',
    phase: 'Take in',
    title: 'Note what was left with it',
    needs: 'note',
  },
  { step: 'risk-agreed', phase: 'Take in', title: 'Risk explained, consent given' },
];

export const look: readonly StepData[] = [
  { step: 'strap-and-mat', phase: 'Look', title: 'Strap and mat on', caution: CAUTIONS.static },
  {
    step: 'cells-unplugged',
    phase: 'Look',
    title: 'Cells unplugged, coin cells too',
    caution: CAUTIONS.cells,
    gate: 'ohms',
  },
  {
    step: 'capacitors-discharged',
    phase: 'Look',
    title: 'Big capacitors discharged',
    caution: CAUTIONS.capacitors,
    gate: 'ohms',
  },
  {
    step: 'looked-over',
    phase: 'Look',
    title: 'Looked over: liquid, burns, cracked, bulging, missing',
    gate: 'power',
  },
  { step: 'earlier-work', phase: 'Look', title: 'Signs of earlier work', needs: 'note' },
];

export const wash: readonly StepData[] = [
  {
    step: 'shields-off',
    phase: 'Before power',
    title: 'Shields off where it got wet',
    caution: CAUTIONS.iron,
    when: 'liquid',
  },
  {
    step: 'bath-and-rinse',
    phase: 'Before power',
    title: 'Bath, rinse, alcohol',
    caution: CAUTIONS.bath,
    gate: 'soak',
    when: 'liquid',
  },
  {
    step: 'dried-and-looked',
    phase: 'Before power',
    title: 'Dried warm, looked again under the chips',
    caution: CAUTIONS.drying,
    gate: 'power',
    when: 'liquid',
  },
];

export const ohmsToGround: readonly StepData[] = [
  {
    step: 'ohms-input',
    phase: 'Before power',
    title: 'Resistance to ground, input',
    needs: 'reading',
    quantity: 'ohms',
    place: 'Input',
    caution: CAUTIONS.ohms,
    gate: 'power',
  },
  {
    step: 'ohms-main-rail',
    phase: 'Before power',
    title: 'Resistance to ground, main rail',
    needs: 'reading',
    quantity: 'ohms',
    place: 'Main rail',
    caution: CAUTIONS.ohms,
    gate: 'power',
  },
  {
    step: 'ohms-main-rail-swapped',
    phase: 'Before power',
    title: 'Main rail again, leads swapped',
    needs: 'reading',
    quantity: 'ohms',
    place: 'Main rail, leads swapped',
    caution: CAUTIONS.ohms,
  },
];

/** A shorted upper switch joins the main rail to a core: first power would kill the processor. */
export const ohmsMainToCore: StepData = {
  step: 'ohms-main-to-core',
  phase: 'Before power',
  title: 'Main rail to converter outputs: no joined switch',
  needs: 'reading',
  quantity: 'ohms',
  place: 'Main rail to core',
  caution: CAUTIONS.ohms,
  gate: 'power',
};

export const firstPower: readonly StepData[] = [
  {
    step: 'supply-set',
    phase: 'Power',
    title: 'Stated volts set, limit low, feed noted',
    caution: CAUTIONS.firstPower,
  },
  {
    step: 'first-run',
    phase: 'Power',
    title: 'First powered run',
    needs: 'run',
    caution: CAUTIONS.firstPower,
  },
  {
    step: 'volts-board-input',
    phase: 'Power',
    title: "Volts at the board's own input (leads drop)",
    needs: 'reading',
    quantity: 'volts',
    place: 'Board input',
    caution: CAUTIONS.probing,
  },
];

export const mainRailVolts: StepData = {
  step: 'volts-main-rail',
  phase: 'Rails',
  title: 'Main rail',
  needs: 'reading',
  quantity: 'volts',
  place: 'Main rail',
  caution: CAUTIONS.probing,
};

export const walkRails: readonly StepData[] = [
  mainRailVolts,
  {
    step: 'volts-always-on',
    phase: 'Rails',
    title: 'Always-on rail',
    needs: 'reading',
    quantity: 'volts',
    place: 'Always-on rail',
    caution: CAUTIONS.probing,
  },
  {
    step: 'volts-core',
    phase: 'Rails',
    title: 'Far end: processor core',
    needs: 'reading',
    quantity: 'volts',
    place: 'Processor core',
    caution: CAUTIONS.probing,
  },
  {
    step: 'halved',
    phase: 'Rails',
    title: 'Halved what lies between: first rail missing',
    needs: 'note',
  },
];

export const repair: readonly StepData[] = [
  {
    step: 'found-the-place',
    phase: 'Repair',
    title: 'Found it: injected and looked for heat, or millivolts along the rail',
    needs: 'note',
    caution: CAUTIONS.injection,
  },
  {
    step: 'part-lifted',
    phase: 'Repair',
    title: 'Designator and rail noted, then lifted',
    needs: 'part',
    caution: CAUTIONS.iron,
  },
  {
    step: 'part-fitted',
    phase: 'Repair',
    title: 'An equal fitted: kind, value, rating, case',
    needs: 'part',
    caution: CAUTIONS.iron,
  },
];

export const afterFit: readonly StepData[] = [
  {
    step: 'fit-looked-at',
    phase: 'Prove',
    title: 'Fitted part: right way round, seated, no bridge beside it',
    caution: CAUTIONS.iron,
    gate: 'power',
    when: 'part-fitted',
  },
  {
    step: 'same-points-again',
    phase: 'Prove',
    title: 'Same point again',
    needs: 'reading',
    quantity: 'ohms',
    caution: CAUTIONS.ohms,
    gate: 'power',
    when: 'part-fitted',
  },
  {
    step: 'second-run',
    phase: 'Prove',
    title: 'Second run, same feed',
    needs: 'run',
    caution: CAUTIONS.firstPower,
    gate: 'closing',
    when: 'part-fitted',
  },
  {
    step: 'same-volts-again',
    phase: 'Prove',
    title: 'Same point again, powered',
    needs: 'reading',
    quantity: 'volts',
    caution: CAUTIONS.probing,
    gate: 'closing',
    when: 'part-fitted',
  },
];

export const prove: readonly StepData[] = [
  {
    step: 'wakes-three-times',
    phase: 'Prove',
    title: 'Wakes from cold three times',
    needs: 'run',
  },
  { step: 'rails-in-tolerance', phase: 'Prove', title: 'Rails in tolerance' },
];

export const ports: readonly StepData[] = [
  { step: 'picture-and-fan', phase: 'Prove', title: 'Picture on a screen, fan turns' },
  {
    step: 'ports-and-charging',
    phase: 'Prove',
    title: 'Ports and charging tried',
    caution: CAUTIONS.charging,
  },
];

/** Flux and wash residue leak once they warm up: a soak over them proves nothing. */
export const cleanBeforeSoak: StepData = {
  step: 'clean-before-soak',
  phase: 'Prove',
  title: 'Flux and residue off, dry, before the soak',
  caution: CAUTIONS.solvents,
  gate: 'soak',
};

export const soak: StepData = {
  step: 'soaked',
  phase: 'Prove',
  title: "Soaked by the shop's rule",
  caution: CAUTIONS.soak,
};

export const giveBack: readonly StepData[] = [
  {
    step: 'cleaned',
    phase: 'Clean and return',
    title: 'Fingerprints off, looked over once more',
    caution: CAUTIONS.solvents,
  },
  {
    step: 'put-together',
    phase: 'Clean and return',
    title: 'Shields, screws and pads back in their places',
  },
  {
    step: 'cells-back',
    phase: 'Clean and return',
    title: 'Sound cells back',
    caution: CAUTIONS.cells,
  },
  {
    step: 'told-the-customer',
    phase: 'Clean and return',
    title: 'Told: what was done, what was not, what to watch',
    needs: 'note',
  },
];
