import { ok } from '../result.ts';
import { choiceFault, firstFault, missingFault, numberFault, type Computed, type InputFault, type Span } from './input.ts';

/** Quantities of bonding mortar. The bag's own sheet governs; what is expected of a bed is an expectation, never a limit. */

const MASS_KG: Span = [0.01, 1000];
const VOLUME_L: Span = [0.01, 1000];
const LENGTH_MM: Span = [0.1, 100];
const ANGLE_DEG: Span = [5, 90];
const AREA_M2: Span = [0.01, 10_000];
const LOSS_PCT: Span = [0, 100];

const SHARE: Span = [0.1, 1];

/**
 * Share of the upright trowel's bed that beds in use hold, 0.55 give or take 0.10: our own reckoning, from published coverages of a
 * 50 lb bag (80 to 100 ft2 with a 1/4 in square notch) against an assumed yield of 0.55 ft3. A job's own bags know better.
 */
export const BED_SHARE = { low: 0.45, high: 0.65 } as const;

export const NOTCHES = ['square', 'u', 'v'] as const;

/** A notched trowel: notch `widthMm` by `depthMm`, teeth `toothMm` wide between them. A U notch ends in a half circle. */
export interface Trowel {
  readonly notch: (typeof NOTCHES)[number];
  readonly widthMm: number;
  readonly depthMm: number;
  readonly toothMm: number;
}

/**
 * Water for part of a bag, by weight of the powder: the sheet's range for a whole bag, in proportion. A bag divided by eye is no mass.
 * Errors: masses outside 0.01 to 1000 kg, water outside 0.01 to 1000 L, a range that is turned round, more powder than a bag.
 * Source: proportion; 6 qt for 50 lb and 3 qt for 25 lb in a trade guide.
 */
export function partBagWater(mix: {
  readonly bagKg: number;
  readonly waterMinL: number;
  readonly waterMaxL: number;
  readonly powderKg: number;
}): Computed<{ minL: number; maxL: number }> {
  const { bagKg, waterMinL, waterMaxL, powderKg } = mix;
  const fault = firstFault([
    numberFault('bagKg', bagKg, MASS_KG),
    numberFault('waterMinL', waterMinL, VOLUME_L),
    numberFault('waterMaxL', waterMaxL, VOLUME_L),
    waterMinL > waterMaxL ? { code: 'out-of-order', field: 'waterMaxL', bound: waterMinL } : null,
    numberFault('powderKg', powderKg, [MASS_KG[0], bagKg]),
  ]);
  return fault ?? ok({ minL: (waterMinL * powderKg) / bagKg, maxL: (waterMaxL * powderKg) / bagKg });
}

/**
 * Mortar that a notched trowel leaves, as litres on a square metre, which is the mean bed in mm once the ridges are pressed flat: the
 * notch's area over one pitch, times the sine of the angle between blade and floor.
 * Errors: notch sizes outside 0.1 to 100 mm (a V may have no flat between notches), a U less deep than half its width, an angle
 * outside 5 to 90 degrees, an unknown notch.
 * Source: geometry, for full notches and an even bed. That a square notch as wide as its teeth leaves half its depth is the rule of
 * thumb of the trade.
 */
export function meanBed({ trowel, angleDeg }: { readonly trowel: Trowel; readonly angleDeg: number }): Computed<{ bedMm: number }> {
  const fault = firstFault([...trowelFaults(trowel), numberFault('angleDeg', angleDeg, ANGLE_DEG)]);
  if (fault) return fault;
  const upright = notchAreaMm2(trowel) / (trowel.widthMm + trowel.toothMm);
  return ok({ bedMm: upright * Math.sin((angleDeg * Math.PI) / 180) });
}

/**
 * What a bag is expected to cover, in m2. Beds in use hold less than the upright trowel would leave: BED_SHARE of it; a crew that has
 * weighed its own bags passes the share it found.
 * Errors: bed outside 0.1 to 100 mm, yield outside 0.01 to 1000 L, a share outside 0.1 to 1 or turned round.
 * Source: volume over thickness.
 */
export function expectedCoverage(laying: {
  readonly uprightBedMm: number;
  readonly bagYieldL: number;
  readonly share: { readonly low: number; readonly high: number };
}): Computed<{ leastM2PerBag: number; mostM2PerBag: number }> {
  const { uprightBedMm, bagYieldL, share } = laying;
  const fault = firstFault([
    numberFault('uprightBedMm', uprightBedMm, LENGTH_MM),
    numberFault('bagYieldL', bagYieldL, VOLUME_L),
    ...shareFaults(share),
  ]);
  if (fault) return fault;
  return ok({ leastM2PerBag: bagYieldL / (uprightBedMm * share.high), mostM2PerBag: bagYieldL / (uprightBedMm * share.low) });
}

/**
 * Whole bags for an area, the loss on top, from what a bag covers by its sheet or by `expectedCoverage`.
 * Errors: area or coverage outside 0.01 to 10,000 m2, loss outside 0 to 100 %, coverages turned round.
 * Source: proportion; the loss is added to the area, as the trade's examples do.
 */
export function bagsNeeded(laying: {
  readonly areaM2: number;
  readonly lossPct: number;
  readonly leastM2PerBag: number;
  readonly mostM2PerBag: number;
}): Computed<{ fewestBags: number; mostBags: number }> {
  const { areaM2, lossPct, leastM2PerBag, mostM2PerBag } = laying;
  const fault = firstFault([
    numberFault('areaM2', areaM2, AREA_M2),
    numberFault('lossPct', lossPct, LOSS_PCT),
    numberFault('leastM2PerBag', leastM2PerBag, AREA_M2),
    numberFault('mostM2PerBag', mostM2PerBag, AREA_M2),
    leastM2PerBag > mostM2PerBag ? { code: 'out-of-order', field: 'mostM2PerBag', bound: leastM2PerBag } : null,
  ]);
  if (fault) return fault;
  // A billionth of a bag over is rounding, not mortar.
  const bags = (m2PerBag: number) => Math.ceil((areaM2 * (1 + lossPct / 100)) / m2PerBag - 1e-9);
  return ok({ fewestBags: bags(mostM2PerBag), mostBags: bags(leastM2PerBag) });
}

function notchAreaMm2({ notch, widthMm, depthMm }: Trowel): number {
  if (notch === 'v') return (widthMm * depthMm) / 2;
  if (notch === 'square') return widthMm * depthMm;
  return widthMm * (depthMm - widthMm / 2) + (Math.PI * widthMm ** 2) / 8;
}

function shareFaults(share: { readonly low: number; readonly high: number }): (InputFault | null)[] {
  const missing = missingFault('share', share);
  if (missing) return [missing];
  return [
    numberFault('share.low', share.low, SHARE),
    numberFault('share.high', share.high, SHARE),
    share.low > share.high ? { code: 'out-of-order', field: 'share.high', bound: share.low } : null,
  ];
}

function trowelFaults(trowel: Trowel): (InputFault | null)[] {
  const missing = missingFault('trowel', trowel);
  if (missing) return [missing];
  const { notch, widthMm, depthMm, toothMm } = trowel;
  return [
    choiceFault('trowel.notch', notch, NOTCHES),
    numberFault('trowel.widthMm', widthMm, LENGTH_MM),
    numberFault('trowel.depthMm', depthMm, [notch === 'u' ? Math.max(LENGTH_MM[0], widthMm / 2) : LENGTH_MM[0], LENGTH_MM[1]]),
    numberFault('trowel.toothMm', toothMm, [notch === 'v' ? 0 : LENGTH_MM[0], LENGTH_MM[1]]),
  ];
}
