import type { Measure } from '../record/kinds/reading.ts';
import { SYSTEMS, type Step, type Surface } from '../record/kinds/setup.ts';
import type { JobState } from './state.ts';

export type System = (typeof SYSTEMS)[number];
export type Place = Surface['place'];

/** Layers of the assembly, substrate first. A layer is what a person sees as one stratum of the section. */
export const LAYERS = ['behind', 'substrate', 'liner', 'tray', 'sheets', 'bands', 'coat', 'flood', 'protect'] as const;
export type Layer = (typeof LAYERS)[number];

/** The layer a step works on; a repair works on whichever it mends. */
export const LAYER_OF_STEP: Readonly<Record<Step, Layer | null>> = {
  behind: 'behind',
  survey: 'substrate',
  scrape: 'substrate',
  'lay-liner': 'liner',
  'set-tray': 'tray',
  'pre-cut': 'sheets',
  'bond-sheets': 'sheets',
  'band-seams': 'bands',
  corners: 'bands',
  'liquid-coat': 'coat',
  'flood-test': 'flood',
  protect: 'protect',
  check: 'protect',
  repair: null,
};

/** What a step measures, first the value its work turns on. */
export const MEASURES_OF_STEP: Readonly<Record<Step, readonly Measure[]>> = {
  behind: [],
  survey: ['slope', 'flatness', 'moisture', 'curb-height', 'surface-temperature'],
  scrape: ['moisture', 'flatness', 'slope'],
  'lay-liner': ['upturn', 'slope'],
  'set-tray': ['slope', 'curb-height'],
  'pre-cut': ['overlap'],
  'bond-sheets': ['upturn', 'overlap', 'surface-temperature'],
  'band-seams': ['band-lap'],
  corners: ['band-lap'],
  'liquid-coat': ['wet-film', 'onto-band', 'dry-film', 'volume-used', 'surface-temperature'],
  'flood-test': ['flood-depth', 'flood-level'],
  protect: [],
  check: ['dry-film', 'upturn'],
  repair: ['band-lap', 'wet-film', 'dry-film'],
};

/** One row of the cover order: on these places, this step of the system covers that one, and why it must come after it. */
export interface CoverRow {
  readonly system: System;
  readonly places: readonly Place[];
  readonly step: Step;
  /** The step whose work it hides; null for the first. */
  readonly covers: Step | null;
  /** Why, as a code that `words` says. */
  readonly reason: string;
}

const ALL: readonly Place[] = ['wall', 'floor', 'curb', 'bench', 'niche'];
const BASE: readonly Place[] = ['floor', 'curb'];
const UPRIGHT: readonly Place[] = ['wall', 'bench', 'niche'];

const row = (system: System, places: readonly Place[], step: Step, covers: Step | null, reason: string): CoverRow => ({
  system,
  places,
  step,
  covers,
  reason,
});

/** Sheets: bonded, seams banded, and the seams hidden by whatever comes next. */
function sheets(system: System, places: readonly Place[]): CoverRow[] {
  return [
    row(system, places, 'scrape', null, 'bond-needs-clean'),
    row(system, places, 'pre-cut', 'scrape', 'cut-before-mortar'),
    row(system, places, 'bond-sheets', 'pre-cut', 'lap-hidden'),
    row(system, places, 'band-seams', 'bond-sheets', 'seam-hidden'),
    row(system, places, 'corners', 'bond-sheets', 'seam-hidden'),
  ];
}

/**
 * Which step covers which, by system and place, in the order of work. Every reason is common practice, no source: the data sheet
 * governs, and a crew with another order writes its own system.
 */
export const COVER_ORDER: readonly CoverRow[] = [
  ...sheets('sheet', ALL),
  row('liquid', ALL, 'scrape', null, 'bond-needs-clean'),
  row('liquid', ALL, 'band-seams', 'scrape', 'fabric-in-corners-first'),
  row('liquid', ALL, 'corners', 'scrape', 'fabric-in-corners-first'),
  row('liquid', ALL, 'liquid-coat', 'band-seams', 'coat-hides-fabric'),
  ...sheets('sheet-and-liquid', ALL),
  row('sheet-and-liquid', ALL, 'liquid-coat', 'band-seams', 'coat-hides-band'),
  ...sheets('sheet-floor-liquid-walls', BASE),
  row('sheet-floor-liquid-walls', UPRIGHT, 'scrape', null, 'bond-needs-clean'),
  row('sheet-floor-liquid-walls', UPRIGHT, 'band-seams', 'scrape', 'band-turns-up-wall'),
  row('sheet-floor-liquid-walls', UPRIGHT, 'corners', 'scrape', 'band-turns-up-wall'),
  row('sheet-floor-liquid-walls', UPRIGHT, 'liquid-coat', 'band-seams', 'coat-laps-band'),
  row('loose-liner', BASE, 'scrape', null, 'liner-on-slope'),
  row('loose-liner', BASE, 'lay-liner', 'scrape', 'liner-on-slope'),
  row('loose-liner', BASE, 'corners', 'lay-liner', 'dam-corners'),
  row('loose-liner', UPRIGHT, 'lay-liner', null, 'liner-behind-board'),
  row('tray', BASE, 'scrape', null, 'tray-needs-bed'),
  row('tray', BASE, 'set-tray', 'scrape', 'tray-hides-bed'),
  row('tray', BASE, 'band-seams', 'set-tray', 'tray-joint'),
  row('tray', BASE, 'corners', 'set-tray', 'tray-joint'),
  // Of all systems: the test comes last of what is membrane, and whatever protects it hides it.
  ...SYSTEMS.map((system) => row(system, ['floor'], 'flood-test', lastOnFloor(system), 'test-what-is-laid')),
  ...SYSTEMS.map((system) => row(system, ['floor'], 'protect', 'flood-test', 'protection-hides')),
  ...SYSTEMS.map((system) => row(system, ['curb'], 'protect', lastOnFloor(system), 'protection-hides')),
  ...SYSTEMS.map((system) => row(system, UPRIGHT, 'protect', lastUpright(system), 'protection-hides')),
  ...SYSTEMS.map((system) => row(system, ALL, 'check', 'protect', 'tile-hides')),
];

function lastOnFloor(system: System): Step {
  if (system === 'liquid' || system === 'sheet-and-liquid') return 'liquid-coat';
  return system === 'loose-liner' ? 'corners' : 'band-seams';
}

/** A tray has nothing of its own on the walls, whose membrane is another system. */
function lastUpright(system: System): Step | null {
  if (system === 'tray') return null;
  if (system === 'loose-liner') return 'lay-liner';
  return system === 'sheet' ? 'band-seams' : 'liquid-coat';
}

/** When corner pieces go on, by system: the data sheet says, and this is what is offered where nobody has looked. */
export const CORNERS: Readonly<Record<System, { readonly when: 'before' | 'after' | 'either'; readonly reason: string }>> = {
  sheet: { when: 'either', reason: 'sheet-says' },
  liquid: { when: 'before', reason: 'fabric-in-corners-first' },
  'sheet-and-liquid': { when: 'either', reason: 'sheet-says' },
  'sheet-floor-liquid-walls': { when: 'either', reason: 'sheet-says' },
  'loose-liner': { when: 'after', reason: 'dam-corners' },
  tray: { when: 'before', reason: 'tray-joint' },
};

/** The steps on a surface, in the order in which each covers the one before it. */
export function stepsOn(surface: Surface, job: Pick<JobState, 'ownSystems'>): readonly Step[] {
  if (surface.system.startsWith('own:')) return job.ownSystems.find(({ system }) => `own:${system}` === surface.system)?.steps ?? [];
  return COVER_ORDER.filter((one) => one.system === surface.system && one.places.includes(surface.place)).map((one) => one.step);
}

/** The layers a surface has, substrate first. */
export function layersOn(surface: Surface, job: Pick<JobState, 'ownSystems'>): readonly Layer[] {
  const steps = stepsOn(surface, job);
  return LAYERS.filter((layer) => steps.some((step) => LAYER_OF_STEP[step] === layer));
}
