import { WakelineError } from '../errors.ts';
import { formatQuantity } from '../units/format.ts';

/** Volts at the supply and amps through the leads, with their tips together. */
export interface LeadSample {
  readonly volts: number;
  readonly amps: number;
}

export interface LeadOhm {
  readonly ohm: number;
  /** One standard deviation of the mean, ohms. */
  readonly sigmaOhm: number;
}

/** Fewer readings, less current or more ohms than this are no leads with their tips together. */
export const LEAD_SAMPLES = 8;
const LEAST_A = 0.2;
const MOST_OHM = 1;
/** Readings that scatter more than this share are those of tips that move. */
const STEADY_SHARE = 0.1;

/**
 * Ohms of both leads from volts at the supply over amps through the shorted tips (Ohm's law); the
 * limits are common practice, no source.
 * @throws WakelineError `bad-input` with too few readings, hardly any current, tips that do not touch or move.
 */
export function leadOhmOf(samples: readonly LeadSample[]): LeadOhm {
  const refuse = (what: string, todo: string): never => {
    throw new WakelineError({ code: 'bad-input', what, where: 'lead resistance', todo });
  };
  if (samples.length < LEAD_SAMPLES) {
    refuse(`${samples.length} readings are too few`, 'Hold until it is taken by itself.');
  }
  const ohms = samples.map(({ volts, amps }) => (amps >= LEAST_A ? volts / amps : Number.NaN));
  if (ohms.some(Number.isNaN)) {
    refuse(
      `Less than ${formatQuantity(LEAST_A, 'A', null)} flows`,
      'Clip the two tips to each other, not to the board, and hold again.',
    );
  }
  const ohm = ohms.reduce((sum, one) => sum + one, 0) / ohms.length;
  const scatter = Math.sqrt(
    ohms.reduce((sum, one) => sum + (one - ohm) ** 2, 0) / (ohms.length - 1),
  );
  if (!(ohm <= MOST_OHM)) {
    refuse(
      `${formatQuantity(ohm, 'Ω', null, { digits: 3 })} is too much for two leads`,
      'Clip the tips together on clean metal, or use shorter leads.',
    );
  }
  if (scatter > STEADY_SHARE * Math.max(ohm, 0.01)) {
    refuse('The resistance moves', 'Clip the tips so that they do not slip, and hold again.');
  }
  return { ohm: Math.max(0, ohm), sigmaOhm: scatter / Math.sqrt(ohms.length) };
}
