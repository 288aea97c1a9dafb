import type { ProbeTaken } from '../../core/contract/probing-calls.ts';
import { formatReading } from '../../core/units/format-reading.ts';

/** The value of a taken reading; an open line on ohms and diode is said to be open. */
export function takenValue(taken: ProbeTaken): string {
  const isOpen = taken.overload && taken.quantity !== 'volts' && taken.quantity !== 'amps';
  return isOpen ? 'open' : formatReading(taken);
}

/** Where it was taken: its place, else its step, else nothing yet. */
export function takenPlace(taken: ProbeTaken): string {
  return taken.place || taken.title;
}
