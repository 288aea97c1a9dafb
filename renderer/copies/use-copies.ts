import { useCallback, useEffect, useState } from 'react';
import type { CopyProgress, CopyState } from '../../core/contract/copy-calls.ts';
import { useActions, useDesk } from '../state/use-desk.ts';

/** Where the backups stand and how far a copy is, kept up with what main tells. */
export function useCopies(): {
  readonly state: CopyState | null;
  readonly progress: CopyProgress | null;
  readonly read: () => Promise<void>;
} {
  const { bridge } = useDesk();
  const { ask } = useActions();
  const [state, setState] = useState<CopyState | null>(null);
  const [progress, setProgress] = useState<CopyProgress | null>(null);
  const read = useCallback(async () => {
    const found = await ask('readCopyState', {});
    if (found === null) return;
    setState(found);
    if (found.busy === null) setProgress(null);
  }, [ask]);
  useEffect(() => {
    void read();
    const stops = [
      bridge.on('copyProgress', (far) => {
        setProgress(far);
        setState((before) => before && { ...before, busy: far.work });
      }),
      bridge.on('copiesChanged', (told) => {
        setState(told);
        if (told.busy === null) setProgress(null);
      }),
    ];
    return () => {
      for (const stop of stops) stop();
    };
  }, [bridge, read]);
  return { state, progress, read };
}
