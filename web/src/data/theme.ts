/** Light, dark, or as the device has it; kept on this device, because it is about this screen. */
export const THEMES = ['device', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

const PLACE = 'edgeledger-theme';

export function theme(): Theme {
  const kept = localStorage.getItem(PLACE);
  return THEMES.find((t) => t === kept) ?? 'device';
}

/** Puts a theme on the page and keeps it. */
export function setTheme(next: Theme): void {
  localStorage.setItem(PLACE, next);
  applyTheme();
}

export function applyTheme(): void {
  const chosen = theme();
  if (chosen === 'device') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = chosen;
}
