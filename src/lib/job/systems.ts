import type { Measure } from '../record/kinds/reading.ts';
import type { Step, Surface } from '../record/kinds.ts';

export type System = Surface['system'];
export type Place = Surface['place'];

/** Layers of the assembly, substrate first. A layer is what a person sees as one stratum of the section. */
export const LAYERS = ['substrate', 'sheets', 'bands', 'coat', 'flood'] as const;
export type Layer = (typeof LAYERS)[number];

/** One thing a layer owes before it is covered. */
export interface ProofRule {
  readonly id: string;
  readonly layer: Layer;
  readonly step: Step;
  readonly want: { readonly shot: true } | { readonly reading: Measure };
  /** Where it is owed: a flood test on floors only. */
  readonly places: readonly Place[];
  /** Why it is owed, as a code that `words` says. */
  readonly reason: string;
}

const EVERYWHERE: readonly Place[] = ['wall', 'floor', 'curb'];

/**
 * What each layer owes at the core level, in this version. Reasons are common practice, no source: each is the thing that
 * can no longer be seen once the next layer lies on it.
 */
export const PROOF_RULES: readonly ProofRule[] = [
  { id: 'clean', layer: 'substrate', step: 'scrape', want: { shot: true }, places: EVERYWHERE, reason: 'hides-substrate' },
  { id: 'overlap', layer: 'sheets', step: 'pre-cut', want: { reading: 'overlap' }, places: EVERYWHERE, reason: 'hides-edge' },
  { id: 'bonded', layer: 'sheets', step: 'bond-sheets', want: { shot: true }, places: EVERYWHERE, reason: 'hides-bond' },
  { id: 'banded', layer: 'bands', step: 'band-seams', want: { shot: true }, places: EVERYWHERE, reason: 'hides-band' },
  { id: 'band-lap', layer: 'bands', step: 'band-seams', want: { reading: 'band-lap' }, places: EVERYWHERE, reason: 'hides-band' },
  { id: 'coated', layer: 'coat', step: 'liquid-coat', want: { shot: true }, places: EVERYWHERE, reason: 'hides-coat' },
  { id: 'film', layer: 'coat', step: 'liquid-coat', want: { reading: 'wet-film' }, places: EVERYWHERE, reason: 'film-dries' },
  { id: 'filled', layer: 'flood', step: 'flood-test', want: { shot: true }, places: ['floor'], reason: 'water-leaves' },
  { id: 'level', layer: 'flood', step: 'flood-test', want: { reading: 'flood-depth' }, places: ['floor'], reason: 'water-leaves' },
];

/** Layers a system has, in the order in which each covers the one before it. */
export const SYSTEM_LAYERS: Readonly<Record<System, readonly Layer[]>> = {
  sheet: ['substrate', 'sheets', 'bands', 'flood'],
  liquid: ['substrate', 'bands', 'coat', 'flood'],
  'sheet-and-liquid': ['substrate', 'sheets', 'bands', 'coat', 'flood'],
};

/** The layer a step works on. */
export const LAYER_OF_STEP: Readonly<Record<Step, Layer>> = {
  scrape: 'substrate',
  'pre-cut': 'sheets',
  'bond-sheets': 'sheets',
  'band-seams': 'bands',
  'liquid-coat': 'coat',
  'flood-test': 'flood',
};

/** What a step measures in this version, or null. */
export const MEASURE_OF_STEP: Readonly<Record<Step, Measure | null>> = {
  scrape: null,
  'pre-cut': 'overlap',
  'bond-sheets': null,
  'band-seams': 'band-lap',
  'liquid-coat': 'wet-film',
  'flood-test': 'flood-depth',
};
