import { inchDecimal } from '../measure/inch.ts';
import type { SpokenMeasure, SpokenUnit } from './vocabulary.ts';

/** Values from one to another, both within, by whole units, halves, or sixteenths; with `tenths` each whole may have one decimal. */
interface Span {
  readonly from: number;
  readonly to: number;
  readonly by: 'whole' | 'five' | 'sixteenth';
  readonly tenths?: true;
}

const shortLap: Partial<Record<SpokenUnit, Span>> = { in: { from: 0, to: 12, by: 'sixteenth' }, mm: { from: 1, to: 300, by: 'whole' } };
const water: Partial<Record<SpokenUnit, Span>> = { in: { from: 0, to: 6, by: 'sixteenth' }, mm: { from: 0, to: 150, by: 'whole' } };
const degrees: Partial<Record<SpokenUnit, Span>> = { F: { from: 20, to: 130, by: 'whole' }, C: { from: -10, to: 55, by: 'whole' } };
const share: Partial<Record<SpokenUnit, Span>> = { '%': { from: 1, to: 100, by: 'whole', tenths: true } };

/**
 * What a recogniser listens for, by measure and unit. Common sense, no source: narrower than what the pads take, as a rare value can be
 * typed and a listener that knows fewer values mistakes fewer. A wet film is read on the teeth of a gauge, which the caller names.
 */
const PLAUSIBLE: Readonly<Partial<Record<SpokenMeasure, Partial<Record<SpokenUnit, Span>>>>> = {
  overlap: shortLap,
  'band-lap': shortLap,
  'onto-band': shortLap,
  'dry-film': { mil: { from: 1, to: 120, by: 'whole', tenths: true }, um: { from: 25, to: 3000, by: 'five' } },
  'flood-depth': water,
  'flood-level': water,
  upturn: { in: { from: 0, to: 24, by: 'sixteenth' }, mm: { from: 1, to: 600, by: 'whole' } },
  slope: {
    'in/ft': { from: 0, to: 2, by: 'sixteenth' },
    '%': { from: 0, to: 12, by: 'whole', tenths: true },
    'mm/m': { from: 0, to: 100, by: 'whole' },
  },
  flatness: { in: { from: 0, to: 2, by: 'sixteenth' }, mm: { from: 0, to: 50, by: 'whole' } },
  'curb-height': shortLap,
  'air-temperature': degrees,
  'surface-temperature': degrees,
  humidity: share,
  moisture: share,
  'volume-used': {
    gal: { from: 0, to: 20, by: 'whole', tenths: true },
    qt: { from: 0, to: 40, by: 'whole', tenths: true },
    L: { from: 0, to: 60, by: 'whole', tenths: true },
  },
};

/** Numbers to listen for in one unit. */
export interface Numbers {
  readonly unit: SpokenUnit;
  /** Decimal strings. */
  readonly values: readonly string[];
  /** Each whole one may be followed by one decimal. */
  readonly tenths: boolean;
}

/** What may be said of a measure in a unit; null where it is not spoken in it. */
export function plausible(what: SpokenMeasure, unit: SpokenUnit): Numbers | null {
  const span = PLAUSIBLE[what]?.[unit];
  if (span === undefined) return null;
  const { from, to, by, tenths = false } = span;
  return { unit, values: by === 'sixteenth' ? sixteenths(from, to) : wholes(from, to, by === 'five' ? 5 : 1), tenths };
}

function wholes(from: number, to: number, step: number): string[] {
  return Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => String(from + i * step));
}

function sixteenths(from: number, to: number): string[] {
  return Array.from({ length: (to - from) * 16 + 1 }, (_, i) => inchDecimal(from * 16 + i));
}
