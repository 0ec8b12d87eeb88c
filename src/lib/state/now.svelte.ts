/** The minute hand of the screens: states that depend on time are recomputed from this instant, never counted down. */
class Now {
  #ms = $state(Date.now());

  constructor() {
    setInterval(() => this.#tick(), 15_000);
    // A phone that slept shows the right time on its first paint, not a quarter of a minute later.
    document.addEventListener('visibilitychange', () => this.#tick());
  }

  get ms() {
    return this.#ms;
  }

  /** The same instant as the screens word it: UTC and the phone's own offset. */
  get here() {
    const at = new Date(this.#ms);
    return { utc: at.toISOString(), offsetMin: -at.getTimezoneOffset() };
  }

  #tick() {
    this.#ms = Date.now();
  }
}

export const now = new Now();
