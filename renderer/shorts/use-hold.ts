import { useEffect, useRef } from 'react';
import { KEY_MAP } from '../keys/key-map.ts';
import { useKey } from '../keys/use-key.ts';
import { useActions } from '../state/use-desk.ts';

/** Main is told again and again that the key is held: when it hears no more for 0.6 s, it is off. */
const TELL_EVERY_MS = 120;

/**
 * Holding: the pedal's key, or a finger on the button, keeps the current on; letting go, losing the
 * keyboard or leaving the view switches off. `press` begins by pointer, `release` ends whatever holds.
 */
export function useHold(isWanted: boolean): {
  readonly press: () => void;
  readonly release: () => void;
} {
  const { ask, tryAsk } = useActions();
  const end = useRef<(() => void) | null>(null);

  const press = (): void => {
    if (end.current !== null) return;
    const timer = setInterval(() => void tryAsk('holdInjection', { hold: 'held' }), TELL_EVERY_MS);
    const onKeyUp = (event: KeyboardEvent) => {
      if (event.key === KEY_MAP.pedal.key) end.current?.();
    };
    const onGone = () => end.current?.();
    window.addEventListener('keyup', onKeyUp, { capture: true });
    window.addEventListener('blur', onGone);
    document.addEventListener('visibilitychange', onGone);
    end.current = () => {
      end.current = null;
      clearInterval(timer);
      window.removeEventListener('keyup', onKeyUp, { capture: true });
      window.removeEventListener('blur', onGone);
      document.removeEventListener('visibilitychange', onGone);
      void tryAsk('holdInjection', { hold: 'release' });
    };
    void ask('holdInjection', { hold: 'press' }).then((state) => {
      if (state === null) end.current?.();
    });
  };
  const release = (): void => end.current?.();

  useKey('pedal', press, isWanted);
  useEffect(() => () => end.current?.(), []);
  return { press, release };
}
