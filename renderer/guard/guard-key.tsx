import { useState } from 'react';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useDeskState } from '../state/use-desk.ts';
import { GuardPanel } from './guard-panel.tsx';

/** Opens the limits from the sheet. */
export function GuardKey() {
  const jobId = useDeskState((state) => state.bench?.jobId ?? null);
  const [isOpen, setOpen] = useState(false);
  useKey('guard', () => setOpen(true));
  return (
    <>
      <button type="button" className="plain" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        Guard <KeyCap>E</KeyCap>
      </button>
      {isOpen && <GuardPanel jobId={jobId} onClose={() => setOpen(false)} />}
    </>
  );
}
