import { inchDecimal, inchText } from '#lib/measure/inch.ts';
import { typedLength } from '#lib/job/setup.ts';
import type { ReadingOnPad } from '#lib/record/drafts.ts';
import type { Measure, Reading } from '#lib/record/kinds/reading.ts';
import { combReading, exampleCombMil, exampleCombUm, type CombGauge } from '#lib/trade/comb.ts';

export const EMPTY_PAD: ReadingOnPad = { surface: null, sixteenths: null, typed: '', lastWet: null };

/** The comb whose teeth the pad shows. */
export function gaugeFor(units: 'in' | 'mm'): CombGauge {
  return units === 'in' ? exampleCombMil() : exampleCombUm();
}

/** What the pad says, in the words and steps of the instrument; null while it says nothing that could be kept. */
export function saidOnPad(what: Measure, units: 'in' | 'mm', pad: ReadingOnPad): Reading['said'] | null {
  if (what === 'wet-film') {
    const gauge = gaugeFor(units);
    const span = pad.lastWet === null ? null : combReading(gauge, pad.lastWet);
    return span === null ? null : { text: `${span.from}–${span.to}`, value: span.from, to: span.to, unit: gauge.unit };
  }
  if (units === 'in') {
    if (pad.sixteenths === null || pad.sixteenths === 0) return null;
    return { text: inchText(pad.sixteenths), value: inchDecimal(pad.sixteenths), unit: 'in', resolution: '0.0625' };
  }
  const typed = typedLength(pad.typed, what, 'mm');
  return typed.ok ? { text: pad.typed.trim(), value: typed.value, unit: 'mm', resolution: typed.value.includes('.') ? '0.1' : '1' } : null;
}
