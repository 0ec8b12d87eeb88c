import type { SpokenReading } from './draft.ts';
import { parse } from './parse.ts';
import type { Question } from './hearing.ts';

/**
 * The likeliest other reading, to be shown beside the first: what the recogniser heard second, or where that is no value of the field, the
 * number that is mistaken for the first (18 and 80, one eighth and seven eighths) if the field knows it. Null where there is none.
 */
export function otherReading(first: SpokenReading, alternatives: readonly string[], question: Question): SpokenReading | null {
  const numbers = question.field?.numbers ?? [];
  const units = numbers.map(({ unit }) => unit);
  for (const words of alternatives) {
    const read = parse(words, { places: question.places, units }, question.language);
    if (read.ok && read.value.is === 'reading' && !isSameValue(read.value, first)) return read.value;
  }
  const known = numbers.find(({ unit }) => unit === first.unit)?.values ?? [];
  const value = mistaken(first.value).find((one) => known.includes(one));
  return value === undefined || first.to !== null ? null : { ...first, value };
}

export function isSameValue(a: SpokenReading, b: SpokenReading): boolean {
  return Number(a.value) === Number(b.value) && a.unit === b.unit && a.to === b.to;
}

/** Pairs that recognisers mistake most: measured on made voices (docs/voice.md), the teens by common experience too. */
function mistaken(value: string): string[] {
  const n = Number(value);
  const fraction = n % 1;
  const eighths = fraction === 0.125 ? 0.75 : fraction === 0.875 ? -0.75 : 0;
  return [
    ...(n >= 13 && n <= 19 ? [String((n - 10) * 10)] : []),
    ...(n >= 30 && n <= 90 && n % 10 === 0 ? [String(n / 10 + 10)] : []),
    ...(n === 50 ? ['30'] : n === 30 ? ['50'] : []),
    ...(eighths === 0 ? [] : [String(n + eighths)]),
  ];
}
