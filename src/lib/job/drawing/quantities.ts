import { litresNeeded } from '../../trade/film-second.ts';
import { bagsNeeded, partBagWater } from '../../trade/mortar.ts';
import type { Computed } from '../../trade/input.ts';
import { ok } from '../../result.ts';
import type { Asks, Found } from '../work-out/ask.ts';
import { AREA, FILM, found, LONG, MINUTES, NUMBER, optional, PAIL, PERCENT, POWDER, WATER } from '../work-out/asked.ts';
import type { Takeoff } from './areas.ts';
import type { Joint } from './joints.ts';

/** Of what the surfaces of a drawing are made up. */
export const PARTS = ['floor', 'walls', 'curbs', 'benches'] as const;
export type Part = (typeof PARTS)[number];

/** Square metres in a square of the drawing's unit, and millimetres in the unit. */
const M2 = { in: 0.00064516, mm: 0.000001 } as const;
const MM = { in: 25.4, mm: 1 } as const;

/** The area of some parts, in m². */
export function areaM2(parts: readonly Part[], takeoff: Takeoff, unit: 'in' | 'mm'): number {
  const sizes = {
    floor: takeoff.floor,
    walls: takeoff.walls.reduce((sum, one) => sum + one, 0),
    curbs: takeoff.curbs,
    benches: takeoff.benches,
  };
  return parts.reduce((sum, part) => sum + sizes[part] * M2[unit], 0);
}

/**
 * Band for joints and seams, in mm: each runs in one strip, lapped onto its neighbour by `lapMm` at one end, so that every strip is
 * longer by one lap. Source: addition; common practice.
 */
export function bandMm(joints: readonly Joint[], seamMm: number, seams: number, lapMm: number, unit: 'in' | 'mm'): number {
  const strips = joints.reduce((sum, { length }) => sum + (length / 10_000) * MM[unit] + lapMm, 0);
  return strips + seamMm + seams * lapMm;
}

/** Mortar from an area: whole bags, and batches small enough to be laid within open time and pot life at the crew's pace. */
export const MORTAR_ASKS = {
  bagKg: POWDER,
  bagM2: AREA,
  waterMinL: WATER,
  waterMaxL: WATER,
  paceM2: AREA,
  openTime: MINUTES,
  potLife: MINUTES,
  lossPct: PERCENT,
} as const satisfies Asks;
export type MortarAsked = { readonly [K in keyof typeof MORTAR_ASKS]: number };

/**
 * What is mixed for an area. A batch covers what is laid in the shorter of open time and pot life; all batches are as large as each
 * other. Powder carries the loss, water goes by weight of powder (trade/mortar.ts).
 * Errors: as for bagsNeeded and partBagWater; a pace or time that is not above zero.
 * Source: proportion.
 */
export function mixing(area: number, asked: MortarAsked): Computed<readonly Found[]> {
  const { bagKg, bagM2, waterMinL, waterMaxL, paceM2, openTime, potLife, lossPct } = asked;
  const above = [['paceM2', paceM2], ['openTime', openTime], ['potLife', potLife]] as const; // prettier-ignore
  const none = above.find(([, value]) => !(value > 0));
  if (none !== undefined) return { ok: false, fault: { code: 'too-small', field: none[0], bound: 0 } };
  const bags = bagsNeeded({ areaM2: area, lossPct, leastM2PerBag: bagM2, mostM2PerBag: bagM2 });
  if (!bags.ok) return bags;
  const mostM2 = (paceM2 * Math.min(openTime, potLife)) / 60;
  const powderKg = ((area * (1 + lossPct / 100)) / bagM2) * bagKg;
  // A batch larger than a bag is no batch of part bags: at most one bag at a time.
  const batches = Math.max(1, Math.ceil(area / mostM2 - 1e-9), Math.ceil(powderKg / bagKg - 1e-9));
  const water = partBagWater({ bagKg, waterMinL, waterMaxL, powderKg: powderKg / batches });
  if (!water.ok) return water;
  return ok([
    found('bond-area', AREA, area),
    { what: 'bags-least', kind: 'number', value: bags.value.mostBags },
    { what: 'batches', kind: 'number', value: batches },
    found('batch-powder', POWDER, powderKg / batches),
    found('batch-water', WATER, water.value.minL, water.value.maxL),
    found('batch-area', AREA, area / batches),
    found('batch-time', MINUTES, (area / batches / paceM2) * 60),
  ]);
}

export const LIQUID_ASKS = { wetUm: FILM, coats: NUMBER, lossPct: PERCENT, pailL: PAIL } as const satisfies Asks;
export type LiquidAsked = { readonly [K in keyof typeof LIQUID_ASKS]: number };

/** Liquid a coat, in all, and the pails to buy. Errors: as for litresNeeded; no coat, no pail. Source: volume over area (trade/film-second.ts). */
export function liquid(area: number, { wetUm, coats, lossPct, pailL }: LiquidAsked): Computed<readonly Found[]> {
  if (!(coats >= 1)) return { ok: false, fault: { code: 'too-small', field: 'coats', bound: 1 } };
  if (!(pailL > 0)) return { ok: false, fault: { code: 'too-small', field: 'pailL', bound: 0 } };
  const coat = litresNeeded({ areaM2: area, wetUm, usedL: 0, lossLowPct: lossPct, lossHighPct: lossPct });
  if (!coat.ok) return coat;
  const all = coat.value.highL * Math.round(coats);
  return ok([
    found('coat-area', AREA, area),
    found('liquid-coat', PAIL, coat.value.highL),
    found('liquid-all', PAIL, all),
    { what: 'pails', kind: 'number', value: Math.ceil(all / pailL - 1e-9) },
  ]);
}

export const BAND_ASKS = { lapMm: { ...LONG, in: 'in', mm: 'mm' }, rollMm: LONG, lossPct: optional(PERCENT) } as const satisfies Asks;
export interface BandAsked {
  readonly lapMm: number;
  readonly rollMm: number;
  readonly lossPct: number | null;
}

/** Band with its laps and the rolls to buy. Errors: a roll that is not above zero, a lap below it. */
export function band(
  joints: readonly Joint[],
  seam: { readonly mm: number; readonly count: number },
  { lapMm, rollMm, lossPct }: BandAsked,
  unit: 'in' | 'mm',
): Computed<readonly Found[]> {
  if (!(rollMm > 0)) return { ok: false, fault: { code: 'too-small', field: 'rollMm', bound: 0 } };
  const all = bandMm(joints, seam.mm, seam.count, lapMm, unit);
  const bought = all * (1 + (lossPct ?? 0) / 100);
  return ok([found('band-length', LONG, all), { what: 'band-rolls', kind: 'number', value: Math.ceil(bought / rollMm - 1e-9) }]);
}
