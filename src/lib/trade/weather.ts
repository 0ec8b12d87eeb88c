import { ok } from '../result.ts';
import { firstFault, numberFault, type Computed, type Span } from './input.ts';

/**
 * Dew point and spread. Advice, never a limit: the rules about spread come from paint on steel. The data sheet governs.
 */

/** The one coefficient set of the book, with its name: Magnus form over water, Alduchov and Eskridge 1996, -40 to 50 C. */
const MAGNUS = { a: 17.625, bC: 243.04 } as const;

/** Where the coefficients hold. */
export const AIR_C: Span = [-40, 50];
/** Air without any vapour has no dew point; hygrometers of the trade read no lower than this. */
export const HUMIDITY_PCT: Span = [1, 100];
const SURFACE_C: Span = [-40, 100];

/** Air as a thermometer and a hygrometer read it; humidity over water, in per cent. */
export interface Air {
  readonly airC: number;
  readonly humidityPct: number;
}

/** How far above the dew point two published rules want a surface, in K. They are two rules, not one number in two units. */
export const SPREAD_RULES = [
  { key: '5-f', minSpreadK: 5 / 1.8, minText: '5', unit: 'F' },
  { key: '3-c', minSpreadK: 3, minText: '3', unit: 'C' },
] as const;

/**
 * Dew point of air, in C.
 * Errors: a field that is no number or outside -40 to 50 C, 1 to 100 %.
 * Source: Magnus form, `g = ln(RH) + aT/(b+T); Td = bg/(a-g)`, a 17.625, b 243.04 C over water (Alduchov and Eskridge 1996), good
 * to 0.35 C from -40 to 50 C. Below 0 C it is the dew point over water, not the frost point.
 */
export function dewPoint({ airC, humidityPct }: Air): Computed<{ dewPointC: number }> {
  return airFault({ airC, humidityPct }) ?? ok({ dewPointC: dewPointOf(airC, humidityPct) });
}

/**
 * How far a surface stands above the dew point of the air on it, in K: below zero it is wet. For each published rule, whether it is
 * met; `met` is the stricter of them.
 * Errors: as for dewPoint, and a surface outside -40 to 100 C.
 * Source: 5 F, a coating dew point chart; 3 C, galvanisers' handbook ch. 13 (ISO 8502-4 guides on the risk of condensation). Both are
 * written for paint on steel; on cement they warn of a wet surface or of a film that will not dry.
 */
export function surfaceSpread({ airC, humidityPct, surfaceC }: Air & { readonly surfaceC: number }): Computed<{
  dewPointC: number;
  spreadK: number;
  wet: boolean;
  met: boolean;
  rules: readonly { key: (typeof SPREAD_RULES)[number]['key']; minSurfaceC: number; met: boolean }[];
}> {
  const fault = airFault({ airC, humidityPct }) ?? firstFault([numberFault('surfaceC', surfaceC, SURFACE_C)]);
  if (fault) return fault;
  const dewPointC = dewPointOf(airC, humidityPct);
  const rules = SPREAD_RULES.map(({ key, minSpreadK }) => {
    const minSurfaceC = dewPointC + minSpreadK;
    return { key, minSurfaceC, met: surfaceC >= minSurfaceC };
  });
  return ok({ dewPointC, spreadK: surfaceC - dewPointC, wet: surfaceC <= dewPointC, met: rules.every((rule) => rule.met), rules });
}

/** The fault of air that cannot be, as a failed result. */
export function airFault({ airC, humidityPct }: Air) {
  return firstFault([numberFault('airC', airC, AIR_C), numberFault('humidityPct', humidityPct, HUMIDITY_PCT)]);
}

function dewPointOf(airC: number, humidityPct: number): number {
  const g = Math.log(humidityPct / 100) + (MAGNUS.a * airC) / (MAGNUS.bC + airC);
  return (MAGNUS.bC * g) / (MAGNUS.a - g);
}
