import type { RailWalk } from '../../core/rails/walk-rails.ts';
import { Caution } from '../parts/caution.tsx';
import { aimAt, keyOf, type ProbeAim } from './probe-aim.ts';

interface Props {
  readonly walk: RailWalk;
  readonly aim: ProbeAim | null;
  readonly onAim: (aim: ProbeAim) => void;
}

/** The three measurements that tell most for their effort, each with its reason; any other will do too. */
export function NextBest({ walk, aim, onAim }: Props) {
  const { next } = walk;
  return (
    <section className="next-best" aria-label="Next best measurements">
      <h2>Tells most next</h2>
      {next.length === 0 ? (
        <p className="quiet">
          Nothing within reach tells more. What is left wants eyes or an iron.
        </p>
      ) : (
        <ol>
          {next.map((proposal) => {
            const { measurement, text, why, gainBits, cost, caution } = proposal;
            const wanted = aimAt(measurement);
            // Measuring ohms brings its own caution; only what power would do is said here.
            const isFed = measurement.what !== 'ohms' && measurement.what !== 'between';
            const isAimed = aim !== null && keyOf(aim) === keyOf(wanted);
            return (
              <li key={measurement.key}>
                <button
                  type="button"
                  className="proposal"
                  aria-pressed={isAimed}
                  onClick={() => onAim(wanted)}
                >
                  <strong>{text}</strong>
                  <span>{why}</span>
                  <span className="quiet">
                    {gainBits.toFixed(2)} bits expected, effort {Number(cost.toFixed(2))}
                  </span>
                </button>
                {caution !== null && isAimed && isFed && <Caution>{caution}</Caution>}
              </li>
            );
          })}
        </ol>
      )}
    </section>
  );
}
