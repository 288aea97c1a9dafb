import type { CopperPlan } from '../with-copper.ts';

/*
 * Invented copper. Milliohms between neighbours are what a few centimetres of wide track or a corner
 * of a plane come to: 0.49 mohm a square of 35 um copper (IACS conductivity), ten squares and more.
 */

/** The Tern's main rail: from coil L1 along the board to C112, with a branch and a stub beyond it. */
export const TERN_MAIN_COPPER: CopperPlan = {
  net: 'MAIN_8V6',
  tracks: [
    { from: 'MAIN_8V6', to: 'C110', ohms: 0.006 },
    { from: 'C110', to: 'C111', ohms: 0.005 },
    { from: 'C110', to: 'C118', ohms: 0.008 },
    { from: 'C111', to: 'C112', ohms: 0.007 },
    { from: 'C111', to: 'C120', ohms: 0.004 },
    { from: 'C120', to: 'C121', ohms: 0.005 },
  ],
  partAt: { C112: 'C112' },
};

/** The Tern's fused input: C7 hangs between C6 and C9. */
export const TERN_INPUT_COPPER: CopperPlan = {
  net: 'DC_FUSED',
  tracks: [
    { from: 'DC_FUSED', to: 'C5', ohms: 0.004 },
    { from: 'C5', to: 'C6', ohms: 0.003 },
    { from: 'C6', to: 'C7', ohms: 0.005 },
    { from: 'C7', to: 'C9', ohms: 0.004 },
  ],
  partAt: { C7: 'C7' },
};

/** The Plover's 5 V bus: C8 sits beyond C6 and before the sensor plugs. */
export const PLOVER_BUS_COPPER: CopperPlan = {
  net: 'BUS_5V',
  tracks: [
    { from: 'BUS_5V', to: 'C5', ohms: 0.005 },
    { from: 'C5', to: 'C6', ohms: 0.009 },
    { from: 'C6', to: 'C8', ohms: 0.007 },
    { from: 'C6', to: 'C10', ohms: 0.006 },
  ],
  partAt: { C8: 'C8' },
};
