import { ok } from '../result.ts';
import { mean, verdictOf, worstOf } from './_range.ts';
import { choiceFault, firstFault, numberFault, numbersFaults, type Computed, type Span } from './input.ts';
import type { Verdict } from './limits.ts';

/** Contact of what was bedded, as a peeled sheet or a lifted tile shows it. */

const SHARE_PCT: Span = [0, 100];
const BLISTERS: Span = [0, 10_000];
const STEP_PCT: Span = [0, 50];

/** Tile may be less than full; the figures say nothing of a membrane, and are shown beside tile only. */
export const TILE_PLACES = ['dry', 'wet'] as const;
const TILE_PCT = { dry: 80, wet: 95 } as const;

/**
 * A peeled membrane sheet: every sample in full contact, and no blister. A share told to `stepPct` may be off by half of it, so only a
 * share of 100 told without a step is proven; one under it, blisters or not, is outside.
 * Errors: no samples, a share outside 0 to 100 %, a step outside 0 to 50 %, blisters below none.
 * Source: common practice, no source: full contact, no blister. The 80 and 95 % of tile standards are not for membranes.
 */
export function membraneContact(peeled: {
  readonly coveredPct: readonly number[];
  readonly stepPct: number;
  readonly blisters: number;
}): Computed<{ verdict: Verdict; leastPct: number }> {
  const { coveredPct, stepPct, blisters } = peeled;
  const fault = firstFault([
    ...numbersFaults('coveredPct', coveredPct, 1, SHARE_PCT),
    numberFault('stepPct', stepPct, STEP_PCT),
    numberFault('blisters', blisters, BLISTERS),
  ]);
  if (fault) return fault;
  const samples = coveredPct.map((pct) =>
    verdictOf({ low: pct - stepPct / 2, high: Math.min(100, pct + stepPct / 2) }, { min: 100, max: null }),
  );
  return ok({ verdict: blisters > 0 ? 'outside' : worstOf(samples), leastPct: Math.min(...coveredPct) });
}

/**
 * Mortar behind lifted tiles: the mean of at least three, 80 % in dry rooms, 95 % in wet ones and outside.
 * Errors: fewer than three tiles, a share outside 0 to 100 %, an unknown place.
 * Source: ANSI A108.5, contact area, average of at least three tiles, as trade magazines quote it.
 */
export function tileContact(lifted: { readonly coveredPct: readonly number[]; readonly place: (typeof TILE_PLACES)[number] }): Computed<{
  verdict: Verdict;
  meanPct: number;
  neededPct: number;
}> {
  const { coveredPct, place } = lifted;
  const fault = firstFault([...numbersFaults('coveredPct', coveredPct, 3, SHARE_PCT), choiceFault('place', place, TILE_PLACES)]);
  if (fault) return fault;
  const meanPct = mean(coveredPct);
  const neededPct = TILE_PCT[place];
  return ok({ verdict: verdictOf({ low: meanPct, high: meanPct }, { min: neededPct, max: null }), meanPct, neededPct });
}
