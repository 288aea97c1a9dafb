import { useState } from 'react';
import { OutputOff } from '../controls/output-off.tsx';
import { KeyList } from '../keys/key-list.tsx';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import type { View } from '../state/desk.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { SupplyWord } from './supply-word.tsx';
import { ThemeChoice } from './theme-choice.tsx';

const VIEWS: readonly { readonly view: View; readonly words: string; readonly key: string }[] = [
  { view: 'sheet', words: 'Power-up sheet', key: 'F1' },
  { view: 'jobs', words: 'Job book', key: 'F2' },
  { view: 'replay', words: 'Replay', key: 'F3' },
  { view: 'instruments', words: 'Instruments', key: 'F4' },
  { view: 'rails', words: 'Rails', key: 'F5' },
  { view: 'boards', words: 'Boards', key: 'F6' },
  { view: 'compare', words: 'Compare', key: 'F7' },
  { view: 'donors', words: 'Donors', key: 'F10' },
];

/** Views on one side, output off on the other, always. */
export function TopBar() {
  const view = useDeskState((state) => state.view);
  const { show } = useActions();
  const [isListOpen, setListOpen] = useState(false);
  useKey('showSheet', () => show('sheet'));
  useKey('showJobs', () => show('jobs'));
  useKey('showReplay', () => show('replay'));
  useKey('showInstruments', () => show('instruments'));
  useKey('showCompare', () => show('compare'));
  useKey('showRails', () => show('rails'));
  useKey('showBoards', () => show('boards'));
  useKey('showDonors', () => show('donors'));
  useKey('showChecklists', () => show('checklists'));
  useKey('keyList', () => setListOpen(true));
  return (
    <header className="top-bar">
      <p className="name">
        <svg viewBox="0 0 34 20" width="34" height="20" aria-hidden="true">
          <path d="M1 17h9v-5h6V7h6V3h3l2 2 2-3 2 2h2" />
        </svg>
        <span className="name-word">Wakeline</span>
      </p>
      <nav aria-label="Views">
        {VIEWS.map((one) => (
          <button
            key={one.view}
            type="button"
            className="view"
            aria-current={one.view === view ? 'page' : undefined}
            onClick={() => show(one.view)}
          >
            {one.words} <KeyCap>{one.key}</KeyCap>
          </button>
        ))}
      </nav>
      <SupplyWord />
      <span className="theme-choice">
        <ThemeChoice />
      </span>
      <button type="button" className="plain" onClick={() => setListOpen(true)}>
        Keys <KeyCap>?</KeyCap>
      </button>
      <OutputOff />
      {isListOpen && <KeyList onClose={() => setListOpen(false)} />}
    </header>
  );
}
