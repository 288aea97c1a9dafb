import { formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useHands } from '../probing/use-hands.ts';
import { useActions } from '../state/use-desk.ts';

/** The soak under way: how long still, and what the draw has done. */
export function SoakLine() {
  const soak = useHands((state) => state.soak);
  const { ask } = useActions();
  if (soak === null || !soak.isRunning || soak.criteria === null) return null;
  const wholeS = soak.criteria.minutes * 60;
  const doneS = Math.min(wholeS, soak.numbers?.watchedS ?? 0);
  const draw = (amps: number | null) => formatQuantity(amps, 'A', 3);
  return (
    <section className="soak-line" aria-label="Soak" data-testid="soak-line">
      <p>
        <strong>Soaking, {formatDuration(wholeS - doneS)} left.</strong>{' '}
        <span className="quiet">
          Draw {draw(soak.numbers?.lowestA ?? null)} to {draw(soak.numbers?.highestA ?? null)}
        </span>
      </p>
      <TwoPress
        words="Stop soak"
        sure="Stop: it counts as failed"
        onSure={() => void ask('stopSoak', {})}
      />
      <progress max={wholeS} value={doneS} aria-label="Soak done" />
    </section>
  );
}
