import { useKey } from '../keys/use-key.ts';
import { useActions } from '../state/use-desk.ts';

/** The keys that a foot switch or a hand may type while the readout has the keyboard. */
export function useReadoutKeys(isProbing: boolean): void {
  const { ask, outputOff } = useActions();
  const force = () => void ask('forceProbe', {});
  useKey('outputOff', outputOff);
  useKey('probeForce', force, isProbing);
  useKey('probeUndo', () => void ask('undoProbe', {}), isProbing);
  useKey('probeSkip', () => void ask('skipProbe', {}), isProbing);
  useKey('pedal', () => {
    if (isProbing) force();
    else void ask('mark', { mark: 'wake-request', text: '' });
  });
}
