import { isPlausible, MEASURE_KINDS, unitOf } from '#lib/job/measures.ts';
import { baseOf } from '#lib/measure/dimension.ts';
import { inchDecimal, inchText } from '#lib/measure/inch.ts';
import { typedDecimal } from '#lib/measure/quantity.ts';
import type { ReadingOnPad } from '#lib/record/drafts.ts';
import type { Measure, Reading, Unit } from '#lib/record/kinds/reading.ts';
import { combReading, exampleCombMil, exampleCombUm, type CombGauge } from '#lib/trade/comb.ts';

type Units = 'in' | 'mm';
type Said = Reading['said'];

const NO_VALUE = { sixteenths: null, typed: '', lastWet: null };
export const EMPTY_PAD: ReadingOnPad = { surface: null, ...NO_VALUE };

/** What was touched before the pad's draft was back from the disk. A value begun anew never mixes with the one that comes back. */
export function overRestored(early: Partial<ReadingOnPad>): Partial<ReadingOnPad> {
  return { ...(Object.keys(NO_VALUE).some((field) => field in early) ? NO_VALUE : {}), ...early };
}

/** Which pad a measure is read on: the comb for a wet film, the ruler for inches, keys for all else. */
export function padFor(what: Measure, units: Units): 'comb' | 'ruler' | 'keys' {
  if (what === 'wet-film') return 'comb';
  return unitOf(what, units) === 'in' ? 'ruler' : 'keys';
}

/** The comb whose teeth the pad shows. */
export function gaugeFor(units: Units): CombGauge {
  return units === 'in' ? exampleCombMil() : exampleCombUm();
}

/** The units a measure is typed in, the usual one first. */
export function unitsFor(what: Measure, units: Units): readonly [Unit, ...Unit[]] {
  if (what === 'slope') return units === 'in' ? ['in/ft', '%'] : ['%', 'mm/m'];
  if (what === 'volume-used') return units === 'in' ? ['gal', 'qt'] : ['L'];
  return [unitOf(what, units)];
}

/** Whether a measure can lie below zero. */
export function goesBelowZero(what: Measure): boolean {
  return MEASURE_KINDS[what].least?.[0].startsWith('-') ?? false;
}

/** Measures of a lap, which is seen only where the edges of both pieces show. */
export function isLap(what: Measure): boolean {
  return what === 'overlap' || what === 'band-lap' || what === 'onto-band';
}

/**
 * What the pad says. `refused`: a value that cannot be meant (`too-large`: in another unit, if there is one, the slip shows;
 * `too-small`: below the least; `zero`: nothing measures that).
 */
export type OnPad =
  | { readonly is: 'empty' }
  | { readonly is: 'said'; readonly said: Said }
  | { readonly is: 'refused'; readonly why: 'too-large' | 'too-small' | 'zero'; readonly said: Said };

/** What the pad says, in the words and steps of the instrument. Moisture says nothing before its scale is chosen. */
export function onPad(what: Measure, units: Units, pad: ReadingOnPad): OnPad {
  if (what === 'moisture' && pad.scale === undefined) return { is: 'empty' };
  const said = saidOnPad(what, units, pad);
  if (said === null) return { is: 'empty' };
  if (isPlausible(what, said.value, said.unit)) return { is: 'said', said };
  const size = baseOf(said.value, said.unit);
  const [value, unit] = MEASURE_KINDS[what].least ?? ['0', said.unit];
  const least = baseOf(value, unit);
  if (size.ok && size.value === 0) return { is: 'refused', why: 'zero', said };
  return { is: 'refused', why: size.ok && least.ok && size.value < least.value ? 'too-small' : 'too-large', said };
}

function saidOnPad(what: Measure, units: Units, pad: ReadingOnPad): Said | null {
  const kind = padFor(what, units);
  if (kind === 'comb') {
    const gauge = gaugeFor(units);
    const span = pad.lastWet === null ? null : combReading(gauge, pad.lastWet);
    return span === null ? null : { text: `${span.from}–${span.to}`, value: span.from, to: span.to, unit: gauge.unit };
  }
  if (kind === 'ruler') {
    if (pad.sixteenths === null) return null;
    return { text: inchText(pad.sixteenths), value: inchDecimal(pad.sixteenths), unit: 'in', resolution: '0.0625' };
  }
  const value = signedDecimal(pad.typed);
  if (value === null) return null;
  const decimals = value.split('.')[1]?.length ?? 0;
  const resolution = decimals === 0 ? '1' : `0.${'1'.padStart(decimals, '0')}`;
  return { text: pad.typed.trim(), value, unit: pad.unit ?? unitsFor(what, units)[0], resolution };
}

/** As typed on the keys: a minus in front, and a mark at the end that nothing follows yet. */
function signedDecimal(typed: string): string | null {
  const [, minus = '', rest = ''] = /^\s*(-?)(.*?)[.,]?\s*$/.exec(typed) ?? [];
  const decimal = typedDecimal(rest);
  return decimal === null ? null : `${Number(decimal) === 0 ? '' : minus}${decimal}`;
}
