import type { Quantity } from './job.ts';

const WORDS: Readonly<Record<Quantity, string>> = {
  volts: 'volts',
  ohms: 'ohms',
  diode: 'a diode reading',
  continuity: 'a continuity check',
  amps: 'amps',
};

/** A quantity as it is said in a sentence. */
export const readingWords = (quantity: Quantity): string => WORDS[quantity];
