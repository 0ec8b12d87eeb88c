import type { Attempt } from '#lib/job/flood.ts';
import { typedAmount } from '#lib/job/form-drafts.ts';
import { MEASURE_KINDS } from '#lib/job/measures.ts';
import { inchDecimal, inchText } from '#lib/measure/inch.ts';
import type { Quantity } from '#lib/record/kinds/reading.ts';

export const WATERS = ['depth', 'test', 'control'] as const;
export type Water = (typeof WATERS)[number];

/** The ruler at the line of an attempt, by its smallest graduation; that of most rulers where the fill does not say. */
export function rulerOf(attempt: Attempt | null, units: 'in' | 'mm'): Quantity {
  return (
    attempt?.fill.data.ruler ?? (units === 'in' ? { text: '1/16', value: '0.0625', unit: 'in' } : { text: '1', value: '1', unit: 'mm' })
  );
}

/** What the pad says, in the graduations of the ruler: whole sixteenths of an inch, or millimetres. Null while it says nothing that can be. */
export function levelSaid(typed: string, what: Water, ruler: Quantity): Quantity | null {
  if (typed === '') return null;
  const of = MEASURE_KINDS[what === 'depth' ? 'flood-depth' : 'flood-level'];
  const text = ruler.unit === 'in' ? inchText(Number(typed)) : typed.replace(/\.$/, '');
  const read = typedAmount(ruler.unit === 'in' ? inchDecimal(Number(typed)) : text, of, ruler.unit);
  return read.ok ? { ...read.value, text, resolution: ruler.value } : null;
}
