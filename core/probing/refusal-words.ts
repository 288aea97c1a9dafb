import type { Quantity } from '../job/job.ts';
import type { Refusal } from './probe-event.ts';

/** Why a touch was no reading, and what to do, in one sentence. */
export function refusalWords(why: Refusal, wanted: Quantity | null, is: Quantity | null): string {
  switch (why) {
    case 'wrong-function':
      return `The meter is in ${is ?? 'another function'}, this point needs ${wanted ?? 'another'}: turn its switch.`;
    case 'output-on':
      return `No ${is ?? 'resistance'} while the output is on: switch it off and wait until the rail is dead.`;
    case 'volts-remain':
      return `Volts remain on the point: no ${is ?? 'resistance'} before it is discharged. Touch again then.`;
  }
}
