import { loadSettings, saveSettings, type Settings } from '#lib/device/settings-store.ts';

/** How this phone shows the book. Nothing here is part of any record. */
class SettingsState {
  #now: Settings = $state.raw(loadSettings());

  get lang() {
    return this.#now.lang;
  }
  get theme() {
    return this.#now.theme;
  }
  get hand() {
    return this.#now.hand;
  }

  get barMm() {
    return this.#now.barMm;
  }

  set(change: Partial<Settings>) {
    this.#now = { ...this.#now, ...change };
    saveSettings(this.#now);
  }
}

export const settings = new SettingsState();
