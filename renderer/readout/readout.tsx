import '@fontsource/barlow/latin-500.css';
import '@fontsource/barlow/latin-600.css';
import '@fontsource/barlow/latin-ext-500.css';
import '@fontsource/barlow/latin-ext-600.css';
import '../styles/tokens.css';
import '../styles/base.css';
import '../styles/parts.css';
import './readout.css';
import { createRoot } from 'react-dom/client';
import { applyTheme, keptTheme } from '../frame/theme.ts';
import { startKeyBoard } from '../keys/key-board.ts';
import { createDesk } from '../state/desk.ts';
import { DeskContext } from '../state/use-desk.ts';
import { ReadoutPage } from './readout-page.tsx';

applyTheme(keptTheme());
// The two windows share what is kept: a change of theme in one is heard in the other.
window.addEventListener('storage', () => applyTheme(keptTheme()));
startKeyBoard();
const desk = createDesk(window.wakeline);
desk.start();

const place = document.querySelector('#window');
if (place !== null) {
  createRoot(place).render(
    <DeskContext value={desk}>
      <ReadoutPage />
    </DeskContext>,
  );
}
