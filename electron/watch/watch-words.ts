import type { Trouble } from '../../core/errors.ts';
import type { WatchedOutcome, WatchNote } from './watch-lines.ts';

const seconds = (ms: number) => `${(ms / 1000).toFixed(2)} s`;

function outcomeWords({ name, identity, result, offAfterMs, tookMs }: WatchedOutcome): string {
  const supply = identity === '' ? name : `${identity} on ${name}`;
  const sent = offAfterMs === null ? '' : `told to switch off ${seconds(offAfterMs)} later`;
  switch (result) {
    case 'read-back-off':
      return `${supply} was ${sent} and read back off after ${seconds(tookMs)}`;
    case 'told':
      return sent === '' ? `${supply} ended with the app` : `${supply} was ${sent}; it cannot tell`;
    case 'stays-on':
      return `${supply} was ${sent} and still reads on`;
    case 'silent':
      return sent === '' ? `${supply} did not answer` : `${supply} was ${sent} and did not answer`;
    case 'another':
      return `another instrument answers on ${name}`;
    case 'not-opened':
      return `${supply} could not be reached`;
  }
}

/** What the watcher did, as one line of a run's timeline. */
export function watchNoteText(note: WatchNote): string {
  const why = note.why === 'main-died' ? 'The app ended while power was on' : 'The app hung';
  const ended = note.endedMain ? ' The hung app held the port and was ended.' : '';
  return `${why}. Watcher: ${note.supplies.map(outcomeWords).join('; ')}.${ended}`;
}

/** The same as something to tell the technician, with what to do. */
export function watchNoteTrouble(note: WatchNote): Trouble {
  const isOff =
    note.isDone &&
    note.supplies.every((one) => one.result === 'read-back-off' || one.offAfterMs === null);
  return {
    code: 'watcher-acted',
    what: watchNoteText(note),
    where: 'watcher',
    todo: isOff
      ? 'The output is off. Look at the board before you switch on again.'
      : 'It is not known to be off: look at the supply itself, now.',
  };
}
