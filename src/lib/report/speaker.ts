import { PROOF_RULES, type ProofRule } from '../job/systems.ts';
import * as m from '../words/compiled/messages.js';
import { FROM, HOW, KIND, LAYER, MEASURE, OWED, PLACE, STEP, SYSTEM, VERDICT } from '../words/codes.ts';
import { limitSourceText, limitText } from '../words/limit.ts';
import { quantityText, spanText } from '../words/number.ts';
import { clockText, dateText, durationText } from '../words/time.ts';
import type { Moment, RecordDocument, RecordLimit, RecordReading } from './record-document.ts';

export type Locale = 'en' | 'es';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

const REASON: Readonly<Record<string, typeof m.reason_hides_edge>> = {
  'hides-substrate': m.reason_hides_substrate,
  'hides-edge': m.reason_hides_edge,
  'hides-bond': m.reason_hides_bond,
  'hides-band': m.reason_hides_band,
  'hides-coat': m.reason_hides_coat,
  'film-dries': m.reason_film_dries,
  'water-leaves': m.reason_water_leaves,
};

/** Says the codes, values and ids of one document in one language. What has no word is said by its code, never left out. */
export type Speaker = ReturnType<typeof speaker>;

export function speaker(document: RecordDocument, locale: Locale) {
  const say = <Words extends Readonly<Record<string, (inputs: Record<string, never>, options: { locale: Locale }) => string>>>(
    words: Words,
  ) => {
    return (code: keyof Words & string): string => (Object.hasOwn(words, code) ? words[code]!({}, { locale }) : code);
  };
  const rules = new Map<string, ProofRule>(PROOF_RULES.map((rule) => [rule.id, rule]));
  const surfaces = new Map(document.surfaces.map((one) => [one.surface, one.name]));
  const people = new Map(document.people.map((one) => [one.person, one.name]));
  const limits = new Map(document.limits.map((one) => [one.limit, one]));
  const letters = new Map(document.chains.map(({ device }, i) => [device, chainLetter(i)]));
  const photos = new Map(document.shots.map(({ id }, i) => [id, i + 1]));
  const measure = say(MEASURE);
  const verdict = say(VERDICT);

  const surface = (id: string | null): string => (id === null ? m.record_no_surface({}, { locale }) : (surfaces.get(id) ?? id));
  const value = ({ said: { value: from, to, unit } }: RecordReading): string =>
    glued(to === null ? quantityText({ value: from, unit }, locale) : spanText({ value: from, to, unit }, locale));
  const day = ({ utc, offsetMin }: Moment): string => dateText(utc, offsetMin, locale);
  const clock = ({ utc, offsetMin }: Moment): string => glued(clockText(utc, offsetMin, locale));

  return {
    locale,
    step: say(STEP),
    layer: say(LAYER),
    place: say(PLACE),
    system: say(SYSTEM),
    how: say(HOW),
    from: say(FROM),
    kind: say(KIND),
    measure,
    verdict,
    owed: (rule: string) => say(OWED)(rule as keyof typeof OWED),
    reason: (rule: string) => REASON[rules.get(rule)?.reason ?? '']?.({}, { locale }) ?? '',
    surface,
    surfaces: (ids: readonly string[]) => (ids.length === 0 ? surface(null) : ids.map(surface).join(', ')),
    // A person who gave no name has a random id, which says nothing on paper.
    person: (id: string) => people.get(id) ?? (UUID.test(id) ? m.record_no_name({}, { locale }) : id),
    limit: (id: string | null) => (id === null ? null : (limits.get(id) ?? null)),
    value,
    bounds: (limit: RecordLimit) => limitText(limit, locale),
    source: (limit: RecordLimit) => limitSourceText(limit, locale),
    day,
    clock,
    dayClock: (at: Moment) => `${day(at)}, ${clock(at)}`,
    duration: (from: Moment, to: Moment) => duration(from, to, locale),
    /** Number of a photo in this record, from 1; 0 for one that is not in it. */
    photo: (id: string | null) => (id === null ? 0 : (photos.get(id) ?? 0)),
    /** Place of an entry in the log: the letter of its phone and its number. */
    entry: ({ device, seq }: { device: string; seq: number }) => `${letters.get(device) ?? device} ${seq}`,
    letter: (device: string) => letters.get(device) ?? device,
  };
}

/** A value, a time of day or a duration that must not be broken at the end of a line. Printed, its spaces are plain ones again. */
function glued(text: string): string {
  return text.replaceAll(' ', '\u00a0');
}

/** With the full stop of a sentence, unless an abbreviation has brought one. */
export function sentence(text: string): string {
  return text.endsWith('.') ? text : `${text}.`;
}

/** A step that lasted longer ran over a clock that was moved. */
const YEAR_MIN = 525_600;

/** Time between two moments, or null when a clock moved in between leaves none to tell. */
function duration(from: Moment, to: Moment, locale: Locale): string | null {
  const minutes = (Date.parse(to.utc) - Date.parse(from.utc)) / 60_000;
  return minutes < 0 || minutes > YEAR_MIN ? null : glued(durationText(minutes, locale));
}

/** A, B ... Z, AA, AB ... for the chains of a record. */
function chainLetter(i: number): string {
  return `${i < 26 ? '' : chainLetter(Math.floor(i / 26) - 1)}${String.fromCharCode(65 + (i % 26))}`;
}

/** Date, time and offset as a machine writes them (RFC 3339 with a space), so that a log sorts and no zone is guessed at. */
export function stamp({ utc, offsetMin }: Moment): string {
  const shown = new Date(Date.parse(utc) + offsetMin * 60_000).toISOString();
  const size = Math.abs(offsetMin);
  const offset = `${String(Math.floor(size / 60)).padStart(2, '0')}:${String(size % 60).padStart(2, '0')}`;
  return `${shown.slice(0, 10)} ${shown.slice(11, 19)} ${offsetMin < 0 ? '-' : '+'}${offset}`;
}

/** Hex digits in groups of eight, as many as asked for, so that two eyes can compare them. */
export function grouped(hex: string, digits = hex.length): string {
  return (hex.slice(0, digits).match(/.{1,8}/g) ?? []).join(' ');
}
