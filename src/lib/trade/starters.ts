import { LINER_TEST, type SourceKey } from './sources.ts';

/**
 * Limits from published rules, offered one by one and never preset: the family and the edition in force are the person's choice, and the
 * data sheet and the local code govern. Only values that were read in the source named are here; `readIn` says in which edition.
 */
export const STARTER_FAMILIES = ['irc-ipc', 'upc', 'ncc', 'din-18534'] as const;
export type StarterFamily = (typeof STARTER_FAMILIES)[number];

/** Classes of water load on indoor surfaces, low to very high, of DIN 18534-1. */
export const WATER_CLASSES = ['W0-I', 'W1-I', 'W2-I', 'W3-I'] as const;
export type WaterClass = (typeof WATER_CLASSES)[number];

export interface Starter {
  readonly id: string;
  readonly family: StarterFamily;
  readonly measure: 'slope' | 'curb-height' | 'flood-depth' | 'flood-hold' | 'upturn' | 'band-lap' | 'dry-film';
  /** Decimal strings in `unit`, which is the unit the rule is written in: a code's "2 %" and its "1/4 in per ft" are not the same. */
  readonly min: string | null;
  readonly max: string | null;
  readonly unit: 'in' | 'mm' | 'in/ft' | 'mm/m' | '%' | 'min';
  readonly kind: 'code' | 'standard';
  readonly source: SourceKey;
  /** How the place is cited in the limit, to which the person adds the edition in force. */
  readonly cite: string;
  /** The edition whose text was read, where it was told. */
  readonly readIn: string | null;
  /** Water classes it is for; absent where the family has none. */
  readonly water?: readonly WaterClass[];
}

export const STARTERS: readonly Starter[] = [
  // Finished floor: 1/4 to 1/2 in per foot to the drain. Curb: from its top to the top of the drain 2 to 9 in.
  { id: 'irc-slope', family: 'irc-ipc', measure: 'slope', min: '0.25', max: '0.5', unit: 'in/ft', kind: 'code', source: 'irc-p2709.1', cite: 'IRC P2709.1', readIn: '2009' },
  { id: 'irc-curb', family: 'irc-ipc', measure: 'curb-height', min: '2', max: '9', unit: 'in', kind: 'code', source: 'irc-p2709.1', cite: 'IRC P2709.1', readIn: '2009' },
  { id: 'ipc-flood-depth', family: 'irc-ipc', measure: 'flood-depth', min: LINER_TEST.depthIn, max: null, unit: 'in', kind: 'code', source: LINER_TEST.source, cite: LINER_TEST.cite, readIn: null },
  { id: 'ipc-flood-hold', family: 'irc-ipc', measure: 'flood-hold', min: String(LINER_TEST.holdMin), max: null, unit: 'min', kind: 'code', source: LINER_TEST.source, cite: LINER_TEST.cite, readIn: null },

  // Lining at least 3 in above the finished dam or threshold, laid on a slope of 1/4 in per foot to the weep holes.
  { id: 'upc-upturn', family: 'upc', measure: 'upturn', min: '3', max: null, unit: 'in', kind: 'code', source: 'upc-408.7', cite: 'UPC 408.7', readIn: null },
  { id: 'upc-slope', family: 'upc', measure: 'slope', min: '0.25', max: null, unit: 'in/ft', kind: 'code', source: 'upc-408.7', cite: 'UPC 408.7', readIn: null },

  // Walls of a shower to 1800 mm above the floor substrate; joints 40 mm to each side; fall to the waste from 1:80 to 1:50.
  { id: 'ncc-wall-height', family: 'ncc', measure: 'upturn', min: '1800', max: null, unit: 'mm', kind: 'code', source: 'ncc-10.2.2', cite: 'NCC Housing Provisions 10.2.2', readIn: null },
  { id: 'ncc-joint', family: 'ncc', measure: 'band-lap', min: '40', max: null, unit: 'mm', kind: 'code', source: 'ncc-10.2.2', cite: 'NCC Housing Provisions 10.2.2', readIn: null },
  { id: 'ncc-fall', family: 'ncc', measure: 'slope', min: '1.25', max: '2', unit: '%', kind: 'code', source: 'ncc-10.2.12', cite: 'NCC Housing Provisions 10.2.12', readIn: '2022' },

  // Least dry film by kind of membrane. Dispersions are for walls up to W2-I.
  { id: 'din-dispersion', family: 'din-18534', measure: 'dry-film', min: '0.5', max: null, unit: 'mm', kind: 'standard', source: 'din-18534-3', cite: 'DIN 18534-3', readIn: null, water: ['W0-I', 'W1-I', 'W2-I'] },
  { id: 'din-resin', family: 'din-18534', measure: 'dry-film', min: '1.0', max: null, unit: 'mm', kind: 'standard', source: 'din-18534-3', cite: 'DIN 18534-3', readIn: null, water: WATER_CLASSES },
  { id: 'din-slurry', family: 'din-18534', measure: 'dry-film', min: '2.0', max: null, unit: 'mm', kind: 'standard', source: 'din-18534-3', cite: 'DIN 18534-3', readIn: null, water: WATER_CLASSES },
]; // prettier-ignore

/** The rows of a family, for a water class where the family has them. */
export function startersOf(family: StarterFamily, water: WaterClass): readonly Starter[] {
  return STARTERS.filter((row) => row.family === family && (row.water?.includes(water) ?? true));
}
