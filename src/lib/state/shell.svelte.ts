import { startShell } from '#lib/device/app-shell.ts';

/** The app itself on this phone: whether it works without network, and whether a newer build waits. */
class Shell {
  #readyOffline = $state(false);
  #newerWaits = $state(false);
  #takeOver: (() => void) | null = null;

  get readyOffline() {
    return this.#readyOffline;
  }
  get newerWaits() {
    return this.#newerWaits;
  }

  async start(): Promise<void> {
    this.#takeOver = await startShell({
      readyOffline: () => (this.#readyOffline = true),
      newerWaits: () => (this.#newerWaits = true),
    });
  }

  /** Loads the newer build. Drafts are on disk, so nothing typed is lost. */
  update(): void {
    this.#takeOver?.();
  }
}

export const shell = new Shell();
