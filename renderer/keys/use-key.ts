import { useEffect, useRef } from 'react';
import { answerKey } from './key-board.ts';
import type { KeyAction } from './key-map.ts';

/** Answers a key while the component is on screen and wants it. */
export function useKey(action: KeyAction, handler: () => void, isWanted = true): void {
  const latest = useRef(handler);
  latest.current = handler;
  useEffect(() => {
    if (!isWanted) return;
    return answerKey(action, () => latest.current());
  }, [action, isWanted]);
}
