import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Output off: on every view, never asks, loud while the output is on or not known. */
export function OutputOff() {
  const outputOn = useDeskState((state) => state.bench?.supply.outputOn ?? null);
  const link = useDeskState((state) => state.bench?.supply.link ?? 'none');
  const { outputOff } = useActions();
  useKey('outputOff', outputOff);
  const isLoud = outputOn === true || link === 'lost';
  return (
    <button type="button" className="output-off" data-loud={isLoud} onClick={outputOff}>
      <svg viewBox="0 0 24 16" width="24" height="16" aria-hidden="true">
        <path d="M2 14H8M11 11L14 8M16 14H22" />
      </svg>
      Output off <KeyCap>F9</KeyCap>
    </button>
  );
}
