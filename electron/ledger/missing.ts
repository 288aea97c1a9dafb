import { WakelineError } from '../../core/errors.ts';

const THINGS = {
  job: ['There is no job with this id', 'Open the job book again; the job may have been deleted.'],
  run: ['There is no run with this id', 'Open the job again; the run may have been deleted.'],
  item: ['This job has no such step', 'Open the job again; its checklist may have changed.'],
  reading: ['There is no reading with this id', 'Open the job again; it may have been deleted.'],
  'donor board': [
    'There is no donor board with this id on the shelves',
    'Open the donors again; it may have been scrapped.',
  ],
  cause: ['There is no cause with this key', 'Open the outcome again and choose one.'],
  question: ['There is no question with this key', 'Open the job again.'],
  picture: ['There is no picture with this id', 'Open the job again; it may have been deleted.'],
  take: ['Nothing was taken with this id', 'Open the donors again; it may be back already.'],
  hunt: ['There is no hunt with this id', 'Open the job again; it may have been deleted.'],
  'hunt point': ['There is no such point of a hunt', 'Open the hunt again; it may be gone.'],
  customer: ['There is no customer with this id', 'Open the customers again.'],
  quote: ['There is no quote with this id', 'Open the job again.'],
  charge: ['There is no such line with this id', 'Open the job again; it may be gone already.'],
  part: ['There is no part with this id', 'Open the job again; it may have been deleted.'],
} as const;

/** The error for an id that names nothing. */
export function missing(thing: keyof typeof THINGS, id: string): WakelineError {
  const [what, todo] = THINGS[thing];
  return new WakelineError({ code: 'not-found', what, where: `${thing} ${id}`, todo });
}
