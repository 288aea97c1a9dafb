import { type FormEvent, useEffect, useState } from 'react';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions } from '../state/use-desk.ts';

/** Who works at this bench: set once, written beside every step from then on. */
export function Initials() {
  const { ask, say } = useActions();
  const [kept, setKept] = useState('');
  const [typed, setTyped] = useState<string | null>(null);
  useEffect(() => {
    void ask('readInitials', {}).then((found) => setKept(found ?? ''));
  }, [ask]);
  useKey('initials', () => setTyped(kept), typed === null);
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const said = await ask('sayInitials', { initials: (typed ?? '').trim() });
    if (said === null) return;
    setKept(said);
    setTyped(null);
    say(said === '' ? 'No initials are written.' : `Steps are signed ${said} from now on.`);
  };
  if (typed === null) {
    return (
      <button type="button" className="plain initials" onClick={() => setTyped(kept)}>
        {kept === '' ? 'Initials' : `Signed ${kept}`} <KeyCap>I</KeyCap>
      </button>
    );
  }
  return (
    <form className="initials-form" onSubmit={(event) => void onSubmit(event)}>
      <label className="field">
        Your initials
        <input
          className="field-input"
          // biome-ignore lint/a11y/noAutofocus: opened by a press, the next thing is to type
          autoFocus
          maxLength={8}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Escape') setTyped(null);
          }}
        />
      </label>
      <button type="submit" className="plain strong">
        Keep
      </button>
    </form>
  );
}
