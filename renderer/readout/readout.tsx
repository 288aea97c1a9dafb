import '@fontsource/barlow/latin-500.css';
import '@fontsource/barlow/latin-600.css';
import '@fontsource/barlow/latin-ext-500.css';
import '@fontsource/barlow/latin-ext-600.css';
import '../styles/ohm.css';
import '../styles/tokens.css';
import '../styles/base.css';
import '../styles/parts.css';
import './readout.css';
import { applyTheme, keptTheme } from '../frame/theme.ts';
import { showPage } from '../state/show-page.tsx';
import { ReadoutPage } from './readout-page.tsx';

applyTheme(keptTheme());
// The two windows share what is kept: a change of theme in one is heard in the other.
window.addEventListener('storage', () => applyTheme(keptTheme()));
showPage(<ReadoutPage />);
