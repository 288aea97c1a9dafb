import type { ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import type { Bridge } from '../../core/contract/contract.ts';
import { startKeyBoard } from '../keys/key-board.ts';
import { startScanBoard } from '../keys/scan-board.ts';
import { createDesk } from './desk.ts';
import { DeskContext } from './use-desk.ts';

declare global {
  interface Window {
    /** Put there by the preload. */
    readonly wakeline: Bridge;
  }
}

/** Starts a window's keys and state, and draws its page where the HTML leaves room for it. */
export function showPage(page: ReactNode): void {
  startScanBoard();
  startKeyBoard();
  const desk = createDesk(window.wakeline);
  desk.start();
  const place = document.querySelector('#window');
  if (place === null) return;
  createRoot(place).render(<DeskContext value={desk}>{page}</DeskContext>);
}
