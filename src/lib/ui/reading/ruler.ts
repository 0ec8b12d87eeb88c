/** The ruler strip: one inch in sixteenths, 22 px apart in a drawing 366 wide, with room for half a line width at both ends. */
export const STRIP = { width: 366, height: 128, wedge: 24, start: 7, pitch: 22 } as const;

/** Longest value the pad takes: 99 15/16 in. */
export const SIXTEENTHS_MAX = 100 * 16 - 1;

export interface Tick {
  readonly x: number;
  readonly length: number;
  readonly pen: number;
  /** Fraction set under the tick, for halves and quarters. */
  readonly over: number | null;
  readonly under: number;
}

/** Graduations as on a tape: the coarser the fraction, the longer its line. */
export function ticks(): Tick[] {
  return Array.from({ length: 17 }, (_, i): Tick => {
    const x = xOf(i);
    if (i % 16 === 0) return { x, length: 92, pen: 3, over: null, under: 1 };
    if (i === 8) return { x, length: 76, pen: 2, over: 1, under: 2 };
    if (i % 4 === 0) return { x, length: 60, pen: 2, over: i / 4, under: 4 };
    return { x, length: i % 2 === 0 ? 42 : 26, pen: 1.4, over: null, under: 16 };
  });
}

/** x of a graduation, 0 to 16, in the strip's own coordinates. */
export function xOf(sixteenth: number): number {
  return STRIP.start + STRIP.pitch * sixteenth;
}

/** The nearest graduation, 0 to 16, to a touch at this share of the strip's width. */
export function nearest(share: number): number {
  return Math.min(16, Math.max(0, Math.round((share * STRIP.width - STRIP.start) / STRIP.pitch)));
}

/** A number of sixteenths kept within what the pad takes. */
export function clamped(sixteenths: number): number {
  return Math.min(SIXTEENTHS_MAX, Math.max(0, sixteenths));
}

/** The value after a whole-inch key, 0 to 9: the tens and the fraction stay. */
export function withWhole(sixteenths: number | null, digit: number): number {
  const now = sixteenths ?? 0;
  return Math.floor(now / 160) * 160 + digit * 16 + (now % 16);
}

/** The value after an arrow or page key on the strip; null for any other key. */
export function stepped(sixteenths: number, key: string): number | null {
  const inch = Math.floor(sixteenths / 16) * 16;
  const next: Readonly<Record<string, number>> = {
    ArrowRight: sixteenths + 1,
    ArrowUp: sixteenths + 1,
    ArrowLeft: sixteenths - 1,
    ArrowDown: sixteenths - 1,
    PageUp: sixteenths + 16,
    PageDown: sixteenths - 16,
    Home: inch,
    End: inch + 15,
  };
  return Object.hasOwn(next, key) ? clamped(next[key]!) : null;
}
