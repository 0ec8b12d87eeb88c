import { ok } from '../result.ts';
import { DEPTH_MM } from './flood-profile.ts';
import { choiceFault, firstFault, numberFault, type Computed, type Span } from './input.ts';

/** How the floor falls: to one point from all sides, or as one plane to a line along an edge. */
export const FALLS = ['point', 'line'] as const;
export type Fall = (typeof FALLS)[number];

/** ASTM D5957-98(2021), note 1: 1000 kg/m3. Colder or warmer water is lighter, so a load is never understated. */
const WATER_KG_M3 = 1000;
/** Standard gravity, exact (CGPM 1901). */
const GRAVITY_M_S2 = 9.80665;
/** ASTM D5957-98(2021), 5.3 and note 2: a deeper head only if a licensed structural engineer approves. */
const MOST_HEAD_MM = 100;
/** 40 lb/ft2, the live load a dwelling's floor is designed for: IRC table R301.5, as quoted by an engineer's note. */
const DWELLING_LIVE_LOAD_PA = 40 * 47.880259;

const AREA_M2: Span = [0.01, 10_000];
const SLOPE_MM_M: Span = [0, 200];
const RUN_MM: Span = [0, 50_000];

/** A pan before it is filled. `runMm`: level distance from the threshold, where the depth is measured, to the drain. */
export interface Basin {
  readonly areaM2: number;
  readonly depthAtThresholdMm: number;
  readonly slopeMmPerM: number;
  readonly runMm: number;
  readonly fall: Fall;
}

/**
 * Water in a sloped pan: depth at the drain and in the mean (mm), volume (L), mass (kg), load on the floor at the drain and in the
 * mean (Pa), the drain's load as a share of the live load a dwelling is designed for, and whether the head passes 100 mm.
 * The drain holds `threshold + slope x run`; the mean lies a third of that rise deeper than the threshold where the floor falls to a
 * point from an even edge (a cone), half of it where it falls as one plane: geometry, exact for those two shapes only.
 * Errors: area outside 0.01 to 10,000 m2, depth outside 0 to 2 m, slope outside 0 to 200 mm/m, run outside 0 to 50 m, unknown fall.
 * Source: load `density x gravity x depth`; 5.19 lb/ft2 per inch in ASTM D5957-98(2021), note 1.
 */
export function floodLoad(basin: Basin): Computed<{
  depthAtDrainMm: number;
  meanDepthMm: number;
  volumeL: number;
  massKg: number;
  loadAtDrainPa: number;
  meanLoadPa: number;
  shareOfDwellingLiveLoad: number;
  overStandardHead: boolean;
}> {
  const fault = firstFault([
    numberFault('areaM2', basin.areaM2, AREA_M2),
    numberFault('depthAtThresholdMm', basin.depthAtThresholdMm, DEPTH_MM),
    numberFault('slopeMmPerM', basin.slopeMmPerM, SLOPE_MM_M),
    numberFault('runMm', basin.runMm, RUN_MM),
    choiceFault('fall', basin.fall, FALLS),
  ]);
  if (fault) return fault;
  const riseMm = (basin.slopeMmPerM * basin.runMm) / 1000;
  const depthAtDrainMm = basin.depthAtThresholdMm + riseMm;
  const meanDepthMm = basin.depthAtThresholdMm + riseMm / (basin.fall === 'point' ? 3 : 2);
  const volumeL = meanDepthMm * basin.areaM2;
  const loadAtDrainPa = waterLoadPa(depthAtDrainMm);
  return ok({
    depthAtDrainMm,
    meanDepthMm,
    volumeL,
    massKg: (volumeL * WATER_KG_M3) / 1000,
    loadAtDrainPa,
    meanLoadPa: waterLoadPa(meanDepthMm),
    shareOfDwellingLiveLoad: loadAtDrainPa / DWELLING_LIVE_LOAD_PA,
    overStandardHead: depthAtDrainMm > MOST_HEAD_MM,
  });
}

function waterLoadPa(depthMm: number): number {
  return (WATER_KG_M3 * GRAVITY_M_S2 * depthMm) / 1000;
}
