import '@fontsource/barlow/latin-400.css';
import '@fontsource/barlow/latin-500.css';
import '@fontsource/barlow/latin-600.css';
import '@fontsource/barlow/latin-ext-400.css';
import '@fontsource/barlow/latin-ext-500.css';
import '@fontsource/barlow/latin-ext-600.css';
import './styles/tokens.css';
import './styles/base.css';
import './styles/parts.css';
import './frame/frame.css';
import './sheet/sheet.css';
import './trace/trace.css';
import './strip/strip.css';
import './controls/controls.css';
import './checklist/checklist.css';
import './job-book/job-book.css';
import './replay/replay.css';
import './instruments/instruments.css';
import './probing/probing.css';
import './attention/attention.css';
import './bands/bands.css';
import './compare/compare.css';
import './evidence/evidence.css';
import './like/like.css';
import './trace-files/trace-files.css';
import './rails/rails.css';
import './boards/boards.css';
import { createRoot } from 'react-dom/client';
import type { Bridge } from '../core/contract/contract.ts';
import { App } from './app.tsx';
import { applyTheme, keptTheme } from './frame/theme.ts';
import { startKeyBoard } from './keys/key-board.ts';
import { createDesk } from './state/desk.ts';
import { DeskContext } from './state/use-desk.ts';

declare global {
  interface Window {
    /** Put there by the preload. */
    readonly wakeline: Bridge;
  }
}

applyTheme(keptTheme());
startKeyBoard();
const desk = createDesk(window.wakeline);
desk.start();

const place = document.querySelector('#window');
if (place !== null) {
  createRoot(place).render(
    <DeskContext value={desk}>
      <App />
    </DeskContext>,
  );
}
