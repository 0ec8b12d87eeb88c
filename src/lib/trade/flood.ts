import { ok } from '../result.ts';
import { boundsUncertainty, COVERAGE, stepUncertainty } from './_reading-error.ts';
import { choiceFault, DURATION_MS, firstFault, missingFault, numberFault, type Computed, type InputFault, type Span } from './input.ts';

const DAY_MS = 86_400_000;
const AREA_M2: Span = [0.01, 10_000];
/** Steps of a scale: from a hook gauge to a rough ruler. */
export const STEP_MM: Span = [0.001, 50];
export const DROP_MM: Span = [0, 2000];

/**
 * What is known of evaporation over the test. `pan`: a control pan beside it, read on a scale of steps `resolutionMm`, whose own loss
 * may differ from the basin's by up to `unlikeMm` either way. `at-most`: what formulas or a cover allow; never a correction.
 */
export type Evaporation =
  | { readonly kind: 'pan'; readonly resolutionMm: number; readonly unlikeMm: number }
  | { readonly kind: 'at-most'; readonly highMm: number };

/**
 * The smallest loss the levels of a flood test can show, said before it is filled. `resolutionMm`: the steps of the scale at the marks.
 * A fall of `thresholdMm` or less cannot be told from none; a loss of `detectableMm` or more shows about 97 times in 100.
 * `expandedMm` is 2 u of the difference of two readings (and of the pan's). With a pan that is the threshold; without one, all that
 * might evaporate comes on top. Litres over the water's area, mm for a day at the same pace.
 * Errors: resolution outside 0.001 to 50 mm, hold outside 1 ms to a year, area outside 0.01 to 10,000 m2, evaporation outside 0 to 2 m.
 * Source: step q has u = q/sqrt(12) (JCGM 100:2008, F.2.2.1), independent terms add as squares (5.1.2); threshold and detection limit
 * as in JCGM 200:2012, 4.18, with 2 u for both kinds of error.
 */
export function smallestLoss(planned: {
  readonly resolutionMm: number;
  readonly holdMs: number;
  readonly areaM2: number;
  readonly evaporation: Evaporation;
}): Computed<{
  expandedMm: number;
  thresholdMm: number;
  detectableMm: number;
  detectableL: number;
  detectableMmPerDay: number;
}> {
  const { resolutionMm, holdMs, areaM2, evaporation } = planned;
  const fault = firstFault([
    numberFault('resolutionMm', resolutionMm, STEP_MM),
    numberFault('holdMs', holdMs, DURATION_MS),
    numberFault('areaM2', areaM2, AREA_M2),
    ...evaporationFaults(evaporation),
  ]);
  if (fault) return fault;
  const twice = (stepMm: number) => Math.SQRT2 * stepUncertainty(stepMm);
  const panMm = evaporation.kind === 'pan' ? Math.hypot(twice(evaporation.resolutionMm), boundsUncertainty(evaporation.unlikeMm)) : 0;
  const expandedMm = COVERAGE * Math.hypot(twice(resolutionMm), panMm);
  const highMm = evaporation.kind === 'pan' ? 0 : evaporation.highMm;
  const detectableMm = highMm + 2 * expandedMm;
  return ok({
    expandedMm,
    thresholdMm: highMm + expandedMm,
    detectableMm,
    detectableL: detectableMm * areaM2,
    detectableMmPerDay: (detectableMm * DAY_MS) / holdMs,
  });
}

function evaporationFaults(evaporation: Evaporation): (InputFault | null)[] {
  const missing = missingFault('evaporation', evaporation);
  if (missing) return [missing];
  if (evaporation.kind === 'at-most') return [numberFault('evaporation.highMm', evaporation.highMm, DROP_MM)];
  return [
    choiceFault('evaporation.kind', evaporation.kind, ['pan']),
    numberFault('evaporation.resolutionMm', evaporation.resolutionMm, STEP_MM),
    numberFault('evaporation.unlikeMm', evaporation.unlikeMm, DROP_MM),
  ];
}
