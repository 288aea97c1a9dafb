export const THEMES = ['system', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

const KEPT = 'wakeline.theme';

export function keptTheme(): Theme {
  const kept = localStorage.getItem(KEPT);
  return THEMES.find((theme) => theme === kept) ?? 'system';
}

let stopFollowing = () => {};

/** Puts the window in light or dark, following the system when nothing else is wanted. */
export function applyTheme(theme: Theme): void {
  stopFollowing();
  localStorage.setItem(KEPT, theme);
  const system = window.matchMedia('(prefers-color-scheme: dark)');
  const put = () => {
    const shown = theme === 'system' ? (system.matches ? 'dark' : 'light') : theme;
    document.documentElement.setAttribute('data-theme', shown);
  };
  put();
  if (theme !== 'system') {
    stopFollowing = () => {};
    return;
  }
  system.addEventListener('change', put);
  stopFollowing = () => system.removeEventListener('change', put);
}
