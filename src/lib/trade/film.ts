import { ok } from '../result.ts';
import { boundsUncertainty } from './_reading-error.ts';
import { choiceFault, firstFault, numberFault, numbersFaults, orderFault, type Computed, type InputFault, type Span } from './input.ts';

/** From wet to dry and from the pail to the wall. Volume solids only: a sheet that gives solids by weight says something else. */

/** From the thinnest coat a comb can tell to more than any membrane is laid in one. */
export const FILM_UM: Span = [1, 20_000];
export const SOLIDS_PCT: Span = [1, 100];
export const THINNER_PCT: Span = [0, 100];
/** What of the pail never stays on the surface. */
export const LOSS_PCT: Span = [0, 90];

const COMB_UNITS = ['mil', 'um'] as const;
const TOOTH: Span = [0.1, 5_000];

/**
 * A comb reading as the interval it is, in µm: the film reached the last wetted tooth and not the next. `middleUm` with its standard
 * uncertainty is for sums only; a limit is held against the interval.
 * Errors: no or one tooth, teeth out of order, a last wetted tooth that the gauge does not have, a first dry one that is not the next.
 * Source: ASTM D4414-95(2020), longest wetted and next tooth; half width over the root of three, JCGM 100:2008, 4.3.7.
 */
export function combInterval(comb: {
  readonly unit: (typeof COMB_UNITS)[number];
  readonly teeth: readonly number[];
  readonly lastWet: number;
  readonly firstDry: number;
}): Computed<{ fromUm: number; toUm: number; middleUm: number; standardUm: number }> {
  const { unit, teeth, lastWet, firstDry } = comb;
  const fault = firstFault([
    choiceFault('unit', unit, COMB_UNITS),
    ...numbersFaults('teeth', teeth, 2, TOOTH),
    ...teethFaults(teeth),
    numberFault('lastWet', lastWet, TOOTH),
    numberFault('firstDry', firstDry, TOOTH),
    orderFault('firstDry', lastWet, firstDry),
    toothFault('lastWet', lastWet, teeth),
    toothFault('firstDry', firstDry, teeth),
  ]);
  if (fault) return fault;
  const next = teeth[teeth.indexOf(lastWet) + 1]!;
  if (next !== firstDry) return firstFault([{ code: 'unknown-choice', field: 'firstDry', bound: next }])!;
  // Tenths last: 24 mil is 609.6 µm, and no bit less.
  const um = (tooth: number) => (unit === 'mil' ? (tooth * 254) / 10 : tooth);
  const [fromUm, toUm] = [um(lastWet), um(firstDry)];
  return ok({ fromUm, toUm, middleUm: (fromUm + toUm) / 2, standardUm: boundsUncertainty((toUm - fromUm) / 2) });
}

/**
 * Dry film of a wet one, in µm. A reading of one value has both ends alike.
 * Errors: film outside 1 to 20,000 µm or turned round, solids outside 1 to 100 %, thinner outside 0 to 100 % of the material.
 * Source: `DFT = WFT x VS / (1 + R)`, wet and dry film formulas of the coating trade (thinner R as a share of the material's volume).
 * Not for cement slurries, which bind water; a matt coat may dry thicker (ASTM D4414, not to prove solids content).
 */
export function dryFilm(wet: {
  readonly wetLowUm: number;
  readonly wetHighUm: number;
  readonly solidsPct: number;
  readonly thinnerPct: number;
}): Computed<{ dryLowUm: number; dryHighUm: number }> {
  const { wetLowUm, wetHighUm, solidsPct, thinnerPct } = wet;
  const fault = firstFault([
    numberFault('wetLowUm', wetLowUm, FILM_UM),
    numberFault('wetHighUm', wetHighUm, FILM_UM),
    orderFault('wetHighUm', wetLowUm, wetHighUm),
    ...mixFaults(solidsPct, thinnerPct),
  ]);
  if (fault) return fault;
  const share = solidsPct / 100 / (1 + thinnerPct / 100);
  return ok({ dryLowUm: wetLowUm * share, dryHighUm: wetHighUm * share });
}

/**
 * Wet film that dries to `dryUm`, in all coats together, and how many coats of at most `coatMaxUm` wet that takes (null: no such limit).
 * Errors: as for dryFilm.
 * Source: `WFT = DFT x (1 + R) / VS`, the same formula turned round.
 */
export function wetFilm(dry: {
  readonly dryUm: number;
  readonly solidsPct: number;
  readonly thinnerPct: number;
  readonly coatMaxUm: number | null;
}): Computed<{ wetUm: number; coats: number | null }> {
  const { dryUm, solidsPct, thinnerPct, coatMaxUm } = dry;
  const fault = firstFault([
    numberFault('dryUm', dryUm, FILM_UM),
    ...mixFaults(solidsPct, thinnerPct),
    coatMaxUm === null ? null : numberFault('coatMaxUm', coatMaxUm, FILM_UM),
  ]);
  if (fault) return fault;
  const wetUm = (dryUm * (1 + thinnerPct / 100) * 100) / solidsPct;
  return ok({ wetUm, coats: coatMaxUm === null ? null : Math.ceil(wetUm / coatMaxUm - 1e-9) });
}

/**
 * What a litre of unthinned material covers at a dry film, and what a square metre takes. The loss is the share of the pail that does
 * not stay on the surface. Thinner changes neither: it leaves.
 * Errors: film outside 1 to 20,000 µm, solids outside 1 to 100 %, loss outside 0 to 90 %.
 * Source: `m2/L = 10 VS% / DFT_um`, which is `ft2/gal = 1604 VS / DFT_mil` (231 in3 over 0.001 in over 144 in2), times what is not lost.
 */
export function filmCoverage(coat: {
  readonly dryUm: number;
  readonly solidsPct: number;
  readonly lossPct: number;
}): Computed<{ m2PerL: number; lPerM2: number }> {
  const { dryUm, solidsPct, lossPct } = coat;
  const fault = firstFault([
    numberFault('dryUm', dryUm, FILM_UM),
    numberFault('solidsPct', solidsPct, SOLIDS_PCT),
    numberFault('lossPct', lossPct, LOSS_PCT),
  ]);
  if (fault) return fault;
  const m2PerL = ((10 * solidsPct) / dryUm) * (1 - lossPct / 100);
  return ok({ m2PerL, lPerM2: 1 / m2PerL });
}

function mixFaults(solidsPct: number, thinnerPct: number): (InputFault | null)[] {
  return [numberFault('solidsPct', solidsPct, SOLIDS_PCT), numberFault('thinnerPct', thinnerPct, THINNER_PCT)];
}

function teethFaults(teeth: readonly number[]): (InputFault | null)[] {
  if (!Array.isArray(teeth)) return [];
  const turned = teeth.findIndex((tooth, at) => tooth <= teeth[at - 1]!);
  return turned < 0 ? [] : [{ code: 'out-of-order', field: `teeth[${turned}]`, bound: Number(teeth[turned - 1]) }];
}

function toothFault(field: string, tooth: number, teeth: readonly number[]): InputFault | null {
  return Array.isArray(teeth) && teeth.includes(tooth) ? null : { code: 'unknown-choice', field, bound: null };
}
