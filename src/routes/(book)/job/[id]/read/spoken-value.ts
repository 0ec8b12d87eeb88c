import { isPlausible } from '#lib/job/measures.ts';
import { sixteenthsOf } from '#lib/measure/inch.ts';
import { lengthNm } from '#lib/measure/quantity.ts';
import type { Measure, Reading } from '#lib/record/kinds/reading.ts';
import { combReading } from '#lib/trade/comb.ts';
import type { SpokenReading } from '#lib/voice/draft.ts';
import type { Question } from '#lib/voice/hearing.ts';
import { plausible, type Numbers } from '#lib/voice/plausible.ts';
import { MEASURE_WORDS, UNIT_WORDS, type Command, type SpokenMeasure, type SpokenUnit } from '#lib/voice/vocabulary.ts';
import { fail, ok, type Result } from '#lib/result.ts';
import { gaugeFor, unitsFor } from './pad.ts';

type Units = 'in' | 'mm';
export type NoValue = 'no-tooth' | 'implausible' | 'other-measure';

function isSpoken(what: Measure): what is SpokenMeasure {
  return Object.hasOwn(MEASURE_WORDS, what);
}

/** What the recogniser listens for on the pad of a measure; null where the measure is not read aloud. */
export function questionOf(
  what: Measure,
  units: Units,
  places: Question['places'],
  more: Pick<Question, 'language' | 'coats' | 'commands' | 'steps'>,
): Question | null {
  if (!isSpoken(what)) return null;
  const numbers = unitsFor(what, units).flatMap((unit): Numbers[] => {
    if (!Object.hasOwn(UNIT_WORDS, unit)) return [];
    // Of a comb the last wet tooth is said, and the dry one after it follows.
    if (what === 'wet-film') return [{ unit: unit as SpokenUnit, values: gaugeFor(units).teeth.slice(0, -1), tenths: false }];
    const numbers = plausible(what, unit as SpokenUnit);
    return numbers === null ? [] : [numbers];
  });
  return { ...more, places, field: { what, numbers } };
}

/** The units a question takes. */
export function unitsOf(question: Question): readonly SpokenUnit[] {
  return question.field?.numbers.map(({ unit }) => unit) ?? [];
}

/** Commands at hand: what stands to be confirmed can be confirmed, all else is a way on. */
export function commandsFor(pending: boolean): readonly Command[] {
  return pending ? ['right', 'wrong', 'undo'] : ['undo', 'note', 'timers'];
}

/** A spoken value as the pad of its measure would keep it, with the words that were heard. */
export function spokenSaid(what: Measure, units: Units, draft: SpokenReading, words: string): Result<Reading['said'], NoValue> {
  if (draft.what !== null && draft.what !== what) return fail('other-measure');
  const { value, to, unit } = draft;
  const text = words.slice(0, 200);
  if (what === 'wet-film') {
    const { unit: toothUnit, teeth } = gaugeFor(units);
    const span = unit === toothUnit ? combReading({ unit: toothUnit, teeth }, teeth.indexOf(value)) : null;
    if (span === null || (to !== null && to !== span.to)) return fail('no-tooth');
    return ok({ text, value: span.from, to: span.to, unit });
  }
  if (to !== null) return fail('other-measure');
  return isPlausible(what, value, unit) ? ok({ text, value, unit, resolution: resolutionOf(value, unit) }) : fail('implausible');
}

/** Sixteenths where the value is said in inches and lies on one, else the place of its last digit. */
function resolutionOf(value: string, unit: SpokenUnit): string {
  const length = unit === 'in' ? lengthNm(value, 'in') : null;
  if (length?.ok === true && sixteenthsOf(length.value) !== null) return '0.0625';
  const decimals = value.split('.')[1]?.length ?? 0;
  return decimals === 0 ? '1' : `0.${'1'.padStart(decimals, '0')}`;
}
