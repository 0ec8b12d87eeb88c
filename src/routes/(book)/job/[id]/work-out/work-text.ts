import type { Ask, AskFault, Found, Reckoning } from '#lib/job/work-out/ask.ts';
import { inUnit, type AnyUnit } from '#lib/measure/dimension.ts';
import { VERDICT } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { numberText, quantityText, unitText } from '#lib/words/number.ts';
import { WORK_ASK, WORK_FOUND, WORK_WORD } from '#lib/words/work-out.ts';

type Lang = 'en' | 'es';
type Units = 'in' | 'mm';
type Said = Readonly<Record<string, (() => string) | undefined>>;

const said = (words: Said, code: string) => words[code]?.() ?? code;

/** Digits that matter of a value nobody reads off a scale. */
function decimalText(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** A result, to three digits, in the job's units. */
export function foundText(found: Found, units: Units, lang: Lang): string {
  if (found.kind === 'verdict') return VERDICT[found.verdict]();
  if (found.kind === 'word') return said(WORK_WORD, found.code);
  if (found.kind === 'number') return numberText(decimalText(found.value), 'count', lang);
  const unit = found[units];
  const low = inJobsUnit(found.low, found.si, unit);
  const high = inJobsUnit(found.high, found.si, unit);
  return low === high
    ? quantityText({ value: high, unit }, lang)
    : m.work_out_range({ low: numberText(low, unit, lang), high: quantityText({ value: high, unit }, lang) });
}

export const foundName = (found: Found) => said(WORK_FOUND, found.what);

/** What a field is called, with the unit a bare number is taken in. */
export function askLabel(field: string, ask: Ask, units: Units, lang: Lang): string {
  const name = said(WORK_ASK, field);
  return 'si' in ask ? `${name} (${unitText(ask[units], lang)})` : name;
}

/** A choice; the same word may mean two things in two fields. */
export function choiceText(field: string, code: string): string {
  return said(WORK_WORD, field === 'place' ? `place-${code}` : code === '1:n' ? 'ratio' : code);
}

/** Why nothing comes out yet; the bound in the unit the field is in. */
export function faultText({ field, code, bound, offers }: AskFault, { asks }: Reckoning, units: Units, lang: Lang): string {
  const ask = asks[field];
  const unit = ask !== undefined && 'si' in ask ? ask[units] : 'count';
  const limit =
    bound === null ? '' : quantityText({ value: inJobsUnit(bound, ask !== undefined && 'si' in ask ? ask.si : 'count', unit), unit }, lang);
  const n = bound ?? 1;
  const TEXT: Readonly<Record<AskFault['code'], () => string>> = {
    'empty-field': m.work_out_fault_empty,
    missing: m.work_out_fault_empty,
    'not-a-number': m.work_out_fault_number,
    'not-a-quantity': m.work_out_fault_number,
    'other-dimension': m.work_out_fault_unit,
    'in-doubt': () => m.work_out_fault_doubt({ offers: offers.join(', ') }),
    'too-small': () => m.work_out_fault_small({ bound: limit }),
    'too-large': () => m.work_out_fault_large({ bound: limit }),
    'out-of-order': m.work_out_fault_order,
    twice: m.work_out_fault_order,
    empty: () => m.work_out_fault_few({ n }),
    'too-many': () => m.work_out_fault_many({ n }),
    'unknown-choice': m.work_out_fault_choose,
  };
  return TEXT[code]();
}

function inJobsUnit(value: number, si: AnyUnit, unit: AnyUnit): string {
  const turned = inUnit(value.toFixed(9), si, unit);
  return decimalText(turned.ok ? turned.value : value);
}
