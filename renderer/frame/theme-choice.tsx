import { useState } from 'react';
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
    <label className="theme-choice">
      <span className="heard-only">Light or dark</span>
      <select
        value={theme}
        onChange={(event) => {
          const chosen = THEMES.find((one) => one === event.target.value) ?? 'system';
          applyTheme(chosen);
          setTheme(chosen);
        }}
      >
        {THEMES.map((one) => (
          <option key={one} value={one}>
            {WORDS[one]}
          </option>
        ))}
      </select>
    </label>
  );
}
