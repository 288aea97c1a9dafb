import type { Quantity } from '../../core/job/job.ts';
import { pointOf, type Rail } from '../../core/rails/board-model.ts';
import type { RailMeasurement } from '../../core/rails/rail-measurement.ts';
import type { RailReading } from '../../core/rails/rail-reading.ts';

/** What is measured next: where the probe goes and in which function. */
export interface ProbeAim {
  readonly rail: string;
  readonly what: RailMeasurement['what'] | 'diode';
  /** The other rail of ohms between two. */
  readonly other: string | null;
}

export const AIM_WORDS: Readonly<Record<ProbeAim['what'], string>> = {
  volts: 'Volts',
  input: 'Volts at its input',
  enable: 'Its enable',
  ohms: 'Ohms to ground',
  diode: 'Diode, red on ground',
  between: 'Ohms to another rail',
};

export function quantityOf({ what }: ProbeAim): Quantity & ('volts' | 'ohms' | 'diode') {
  if (what === 'diode') return 'diode';
  return what === 'ohms' || what === 'between' ? 'ohms' : 'volts';
}

export function pointRole({ what }: ProbeAim): RailReading['point'] {
  return what === 'input' || what === 'enable' ? what : 'output';
}

export const aimAt = ({ rail, what, other }: RailMeasurement): ProbeAim => ({ rail, what, other });

/** The aim that takes a reading again at the same point. */
export function aimOf(reading: RailReading): ProbeAim {
  const { rail, point, quantity, against } = reading;
  if (quantity === 'diode') return { rail, what: 'diode', other: null };
  if (quantity === 'ohms')
    return { rail, what: against === null ? 'ohms' : 'between', other: against };
  return { rail, what: point === 'output' ? 'volts' : point, other: null };
}

export const keyOf = ({ rail, what, other }: ProbeAim) =>
  `${what}:${rail}${other === null ? '' : `:${other}`}`;

/** `Volts at MAIN_8V6, C71`. */
export function sayAim(aim: ProbeAim, rail: Rail | undefined): string {
  const place = rail === undefined ? null : pointOf(rail, pointRole(aim));
  const where = place === null || place.name === aim.rail ? '' : `, ${place.name}`;
  const text = {
    volts: `Volts at ${aim.rail}`,
    input: `Volts at the input of ${aim.rail}`,
    enable: `The enable of ${aim.rail}`,
    ohms: `Ohms from ${aim.rail} to ground`,
    diode: `Diode reading of ${aim.rail}, red on ground`,
    between: `Ohms from ${aim.rail} to ${aim.other ?? 'another rail'}`,
  }[aim.what];
  return `${text}${where}`;
}
