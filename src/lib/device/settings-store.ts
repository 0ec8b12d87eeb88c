/** How this phone shows the book: language, light or dark, and the hand that holds it. */
export interface Settings {
  readonly lang: 'en' | 'es';
  readonly theme: 'light' | 'dark';
  readonly hand: 'right' | 'left';
  /** What the bar of the printed scale card measures, in mm, a decimal string; null while nobody has measured it. */
  readonly barMm: string | null;
}

const PLACE = 'layerbook-settings';

function firstSettings(): Settings {
  const spanish = navigator.languages.find((tag) => /^(en|es)\b/.test(tag))?.startsWith('es') ?? false;
  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  return { lang: spanish ? 'es' : 'en', theme: dark ? 'dark' : 'light', hand: 'right', barMm: null };
}

/** The stored settings; each one that is missing or damaged falls back to what the phone itself is set to. */
export function loadSettings(): Settings {
  const first = firstSettings();
  const stored = readStored();
  return {
    lang: stored.lang === 'es' || stored.lang === 'en' ? stored.lang : first.lang,
    theme: stored.theme === 'dark' || stored.theme === 'light' ? stored.theme : first.theme,
    hand: stored.hand === 'left' || stored.hand === 'right' ? stored.hand : first.hand,
    barMm: typeof stored['barMm'] === 'string' && /^\d{2,3}(\.\d{1,2})?$/.test(stored['barMm']) ? stored['barMm'] : null,
  };
}

/** Stores settings where the browser lets us; a private window that refuses forgets them, and nothing else is harmed. */
export function saveSettings(settings: Settings): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(settings));
  } catch {
    return;
  }
}

function readStored(): Record<string, unknown> {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(PLACE) ?? '{}');
    return typeof stored === 'object' && stored !== null ? (stored as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}
