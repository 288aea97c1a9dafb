import { useEffect, useRef } from 'react';
import { answerKey } from './key-board.ts';
import type { KeyAction } from './key-map.ts';

/** Answers a key while the component is on screen. */
export function useKey(action: KeyAction, handler: () => void): void {
  const latest = useRef(handler);
  latest.current = handler;
  useEffect(() => answerKey(action, () => latest.current()), [action]);
}
