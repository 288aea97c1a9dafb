import { useEffect, useRef } from 'react';
import { isPedalHeld } from '../attention/pedal-mode.ts';
import { KEY_MAP } from '../keys/key-map.ts';
import { useKey } from '../keys/use-key.ts';
import { useActions } from '../state/use-desk.ts';

/** Main is told again and again that the pedal is held: when it hears no more, the output goes off. */
const TELL_EVERY_MS = 250;

/** The pedal on an armed output: a press confirms it, or, where it is set so, holding keeps it on. */
export function usePedalSwitch(isArmed: boolean, confirm: () => void): void {
  const { ask, say } = useActions();
  const letGo = useRef<(() => void) | null>(null);
  useKey('pedal', () => (isPedalHeld() ? hold() : confirm()), isArmed);

  function hold(): void {
    const tell = () =>
      void ask('holdOutput', { isHeld: true }).then((state) => {
        if (state === null) letGo.current?.();
      });
    tell();
    say('On while the pedal is held.');
    const timer = setInterval(tell, TELL_EVERY_MS);
    const end = () => {
      letGo.current = null;
      clearInterval(timer);
      window.removeEventListener('keyup', onKeyUp, { capture: true });
      window.removeEventListener('blur', end);
      void ask('holdOutput', { isHeld: false });
    };
    const onKeyUp = (event: KeyboardEvent) => {
      if (event.key === KEY_MAP.pedal.key) end();
    };
    window.addEventListener('keyup', onKeyUp, { capture: true });
    // A window that lost the keyboard hears no key let go.
    window.addEventListener('blur', end);
    letGo.current = end;
  }

  useEffect(() => () => letGo.current?.(), []);
}
