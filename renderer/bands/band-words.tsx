import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { clockWords } from '../trace/time-ticks.ts';
import type { GoodBandState } from './use-good-band.ts';

interface Props {
  readonly state: GoodBandState;
  /** Says nothing where there is no band: on the sheet every line counts. */
  readonly isBrief?: boolean;
  /** Takes the trace to a moment. */
  readonly onGo: (atS: number) => void;
}

/** What the band behind the trace rests on, and each place where the run leaves it, in words. */
export function BandWords({ state, isBrief = false, onGo }: Props) {
  const { found, shown } = state;
  if (found === null) return null;
  if (shown === null) {
    if (isBrief) return null;
    return (
      <p className="band-words quiet">{[found.why, found.leftOut].filter(Boolean).join(' ')}</p>
    );
  }
  const { leavings, band } = shown;
  return (
    <section className="band-words" aria-label="Known-good band">
      <p className="quiet">
        {[band.basis, found.leftOut].filter(Boolean).join(' ')}
        {leavings.length === 0 && ' The run keeps inside it.'}
      </p>
      <ul aria-live="polite">
        {leavings.map((leaving) => (
          <li key={leaving.fromS}>
            <button type="button" className="band-leaving" onClick={() => onGo(leaving.fromS)}>
              <strong>{clockWords(leaving.fromS * TICKS_PER_SECOND, 1)}</strong> {leaving.words}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
