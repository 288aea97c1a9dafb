import { useEffect, useRef, useState } from 'react';
import { areLettersOn, setLetters } from './key-board.ts';
import { KEY_MAP, type KeyAction } from './key-map.ts';

/** Every key, and the switch that puts single-letter keys off. */
export function KeyList({ onClose }: { onClose: () => void }) {
  const dialog = useRef<HTMLDialogElement | null>(null);
  const [letters, setShown] = useState(areLettersOn);
  useEffect(() => {
    dialog.current?.showModal();
  }, []);
  return (
    <dialog ref={dialog} className="key-list" aria-label="Keys" onClose={onClose}>
      <h2>Keys</h2>
      <dl>
        {(Object.keys(KEY_MAP) as KeyAction[]).map((action) => (
          <div key={action}>
            <dt>
              <kbd className="key-cap">{KEY_MAP[action].shown}</kbd>
            </dt>
            <dd>{KEY_MAP[action].does}</dd>
          </div>
        ))}
      </dl>
      <p className="quiet">
        F9 works from anywhere, also while typing. The others wait while a field is being typed in.
      </p>
      <label className="check">
        <input
          type="checkbox"
          checked={letters}
          onChange={(event) => {
            setLetters(event.target.checked);
            setShown(event.target.checked);
          }}
        />
        Single keys act (F keys always do)
      </label>
      <button type="button" className="plain strong" onClick={() => dialog.current?.close()}>
        Close
      </button>
    </dialog>
  );
}
