import { baseOf, dimensionOf, type Dimension } from '../measure/dimension.ts';
import type { Measure, Unit } from '../record/kinds/reading.ts';

type Units = 'in' | 'mm';

interface MeasureKind {
  /** The unit it is spoken in where lengths are in inches, and where they are in millimetres. */
  readonly in: Unit;
  readonly mm: Unit;
  /** The largest value taken as meant; beyond it a digit or a unit slipped (a film of 2000 mil is two inches). */
  readonly largest: readonly [value: string, unit: Unit];
  /** Whether a reading of it is taken, or it is only ever a limit. */
  readonly read: boolean;
  /** Lowest value that can be: temperatures go below zero, a level in a pan falls to it, all else is above. */
  readonly least?: readonly [value: string, unit: Unit];
}

const lap = { in: 'in', mm: 'mm', largest: ['1000', 'mm'], read: true } as const;
const film = { in: 'mil', mm: 'um', largest: ['5000', 'um'], read: true } as const;
const temperature = { in: 'F', mm: 'C', largest: ['80', 'C'], least: ['-40', 'C'], read: true } as const;
const minutes = { in: 'min', mm: 'min', largest: ['1440', 'min'], read: false } as const;
const hours = { in: 'h', mm: 'h', largest: ['2000', 'h'], read: false } as const;

/** Each measure: its units, how large it can be, whether it is read. Bounds are common sense, no source: they catch slips of a finger. */
export const MEASURE_KINDS: Readonly<Record<Measure, MeasureKind>> = {
  overlap: lap,
  'band-lap': lap,
  'onto-band': lap,
  'wet-film': film,
  'dry-film': film,
  coats: { in: 'count', mm: 'count', largest: ['20', 'count'], read: false },
  'flood-depth': { ...lap, largest: ['500', 'mm'] },
  'flood-level': { ...lap, largest: ['500', 'mm'], least: ['0', 'mm'] },
  upturn: { ...lap, largest: ['3000', 'mm'] },
  slope: { in: 'in/ft', mm: '%', largest: ['20', '%'], least: ['-20', '%'], read: true },
  flatness: { ...lap, largest: ['100', 'mm'], least: ['0', 'mm'] },
  'curb-height': { ...lap, largest: ['500', 'mm'] },
  'air-temperature': temperature,
  'surface-temperature': temperature,
  humidity: { in: '%', mm: '%', largest: ['100', '%'], least: ['0', '%'], read: true },
  moisture: { in: '%', mm: '%', largest: ['200', '%'], least: ['0', '%'], read: true },
  distance: { ...lap, largest: ['3000', 'mm'] },
  'volume-used': { in: 'gal', mm: 'L', largest: ['1000', 'L'], read: true },
  slake: minutes,
  'pot-life': minutes,
  'open-time': minutes,
  'walk-on': hours,
  recoat: hours,
  'cover-within': hours,
  'before-flooding': hours,
  'flood-hold': hours,
};

/** The unit a measure is spoken in. */
export function unitOf(what: Measure, units: Units): Unit {
  return MEASURE_KINDS[what][units];
}

export function dimensionOfMeasure(what: Measure): Dimension {
  return dimensionOf(MEASURE_KINDS[what].mm);
}

/** Whether a value can be meant: of the measure's dimension, not beyond its largest, not below its least (0, and not 0 itself, where none is set). */
export function isPlausible(what: Measure, value: string, unit: Unit): boolean {
  const { largest, least } = MEASURE_KINDS[what];
  if (dimensionOf(unit) !== dimensionOfMeasure(what)) return false;
  const size = baseOf(value, unit);
  if (!size.ok || size.value > bound(largest)) return false;
  return least === undefined ? size.value > 0 : size.value >= bound(least);
}

function bound([value, unit]: readonly [string, Unit]): number {
  const size = baseOf(value, unit);
  if (!size.ok) throw new RangeError(`${value} ${unit}: ${size.fault.code}`);
  return size.value;
}
