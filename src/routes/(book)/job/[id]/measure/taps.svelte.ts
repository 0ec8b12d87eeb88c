import { sideMm, tapAt } from '#lib/job/in-photo.ts';
import type { CornerTaps } from '#lib/record/drafts.ts';
import type { Mark, Place } from '#lib/ui/photo/stage.ts';
import * as m from '#lib/words/compiled/messages.js';

export interface Tap {
  readonly at: Place;
  /** Moved under the loupe. */
  readonly fine: boolean;
}

export const NO_CORNERS: CornerTaps = { taps: [null, null, null, null], first: '', second: '' };

/** Four corners tapped in order around, and the lengths of the first two sides as typed in the job's unit. */
export class Corners {
  readonly #units: 'in' | 'mm';
  #taps: readonly (Tap | null)[] = $state.raw([null, null, null, null]);
  first = $state('');
  second = $state('');

  constructor(units: 'in' | 'mm') {
    this.#units = units;
  }

  get marks(): Mark[] {
    return this.#taps.map((tap, i) => ({
      id: `corner-${i}`,
      name: m.mark_corner({ n: i + 1 }),
      at: tap?.at ?? null,
      look: 'corner',
      sharp: true,
      fine: tap?.fine ?? false,
    }));
  }

  /** As a draft keeps them; null while there is nothing to keep. */
  get tapped(): CornerTaps | null {
    const { first, second } = this;
    if (this.#taps.every((tap) => tap === null) && first === '' && second === '') return null;
    return { taps: this.#taps.map((tap) => tap && stored(tap)), first, second };
  }

  restore({ taps, first, second }: CornerTaps): void {
    this.#taps = taps;
    [this.first, this.second] = [first, second];
  }

  /** What to do next; null once all four lie sharp. */
  get hint(): string | null {
    const next = this.#taps.findIndex((tap) => tap === null || !tap.fine);
    if (next < 0) return null;
    return this.#taps[next] === null ? m.tap_corner({ n: next + 1 }) : m.tap_corner_sharp();
  }

  /** All four, each under the loupe; null until then. */
  get quad(): readonly [Place, Place, Place, Place] | null {
    const [a, b, c, d] = this.#taps;
    const all = [a, b, c, d].every((tap) => tap?.fine === true);
    return all ? [a!.at, b!.at, c!.at, d!.at] : null;
  }

  /** Where they lie so far, to be joined by lines. */
  get places(): readonly Place[] {
    return this.#taps.flatMap((tap) => (tap === null ? [] : [tap.at]));
  }

  place(id: string, at: Place, fine: boolean): void {
    this.#taps = this.#taps.map((tap, i) => (id === `corner-${i}` ? { at: tapAt(at), fine: fine || (tap?.fine ?? false) } : tap));
  }

  /** The sides in mm, as decimal strings; null for one that is none. */
  get widthMm() {
    return sideMm(this.first, this.#units);
  }
  get heightMm() {
    return sideMm(this.second, this.#units);
  }
}

/** A tap as a draft keeps it. */
export function stored({ at: [x, y], fine }: Tap): { at: [number, number]; fine: boolean } {
  return { at: [x, y], fine };
}
