import type { GateLoss } from '../../core/checklist/gate-losses.ts';
import { AlarmSign } from '../parts/caution.tsx';

interface Props {
  readonly losses: readonly GateLoss[];
  readonly understood: readonly string[];
  readonly onSay: (understood: readonly string[]) => void;
}

/** What the changed checklist guards no longer, each to be said understood before it is kept. */
export function LossList({ losses, understood, onSay }: Props) {
  if (losses.length === 0) return null;
  return (
    <section className="loss-list" aria-label="What it guards no longer">
      <h3>
        <AlarmSign /> It guards less than the built-in one
      </h3>
      <ul>
        {losses.map(({ id, what, guards }) => (
          <li key={id}>
            <label className="loss">
              <input
                type="checkbox"
                checked={understood.includes(id)}
                onChange={(event) =>
                  onSay(
                    event.target.checked
                      ? [...understood, id]
                      : understood.filter((one) => one !== id),
                  )
                }
              />
              <span>
                <strong>{what}.</strong> {guards} <span className="quiet">Understood.</span>
              </span>
            </label>
          </li>
        ))}
      </ul>
    </section>
  );
}
