import { useState } from 'react';
import { useActions } from '../state/use-desk.ts';

/** Shows the small window that stays on top of the microscope's picture. */
export function ReadoutSwitch() {
  const { ask } = useActions();
  const [isShown, setShown] = useState(false);
  const toggle = async (): Promise<void> => {
    // It may have been closed at its own corner: what is there counts, not what was asked last.
    const now = await ask('readout', { show: null });
    const next = await ask('readout', { show: !(now?.isShown ?? false) });
    setShown(next?.isShown ?? false);
  };
  return (
    <button
      type="button"
      className="plain"
      aria-pressed={isShown}
      title="A small window that stays on top"
      onClick={() => void toggle()}
    >
      Readout
    </button>
  );
}
