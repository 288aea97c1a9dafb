import { useState } from 'react';
import { Pick } from '../parts/pick.tsx';
import { applyTheme, keptTheme, THEMES, type Theme } from './theme.ts';

const WORDS: Readonly<Record<Theme, string>> = {
  system: 'As the system',
  light: 'Light',
  dark: 'Dark',
};

/** Light, dark, or as the system. */
export function ThemeChoice() {
  const [theme, setTheme] = useState(keptTheme);
  return (
    <Pick
      label="Light or dark"
      isQuiet
      value={theme}
      onPick={(picked) => {
        const chosen = THEMES.find((one) => one === picked) ?? 'system';
        applyTheme(chosen);
        setTheme(chosen);
      }}
    >
      {THEMES.map((one) => (
        <option key={one} value={one}>
          {WORDS[one]}
        </option>
      ))}
    </Pick>
  );
}
