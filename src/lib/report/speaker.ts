import { PROOF_RULES, type ProofRule } from '../job/proof-rules.ts';
import type { SaidQuantity } from '../job/said-field.ts';
import * as m from '../words/compiled/messages.js';
import * as codes from '../words/codes.ts';
import { CHOICE, fieldWord } from '../words/fields.ts';
import { lengthText } from '../words/length.ts';
import { limitSourceText, limitText } from '../words/limit.ts';
import { quantityText, spanText } from '../words/number.ts';
import { clockText, dateText, dayText, durationText } from '../words/time.ts';
import { photoGroups } from './photo-order.ts';
import type { Moment, RecordDocument, RecordLimit, RecordReading } from './record-document.ts';

export type Locale = 'en' | 'es';

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** What a speaker must know of a document to say its ids by their names. */
export type Named = Pick<
  RecordDocument,
  'people' | 'rooms' | 'surfaces' | 'materials' | 'limits' | 'systems' | 'ownRules' | 'shots' | 'chains' | 'log'
> &
  Partial<Pick<RecordDocument, 'drawings'>>;

type Words = Readonly<Record<string, (inputs: Record<string, never>, options: { locale: Locale }) => string>>;

/** Says the codes, values and ids of one document in one language. What has no word is said by its code, never left out. */
export type Speaker = ReturnType<typeof speaker>;

export function speaker(document: Named, locale: Locale) {
  const code = (words: Words, one: string): string => (Object.hasOwn(words, one) ? words[one]!({}, { locale }) : one);
  const say =
    <W extends Words>(words: W) =>
    (one: keyof W & string): string =>
      code(words, one);
  const rules = new Map<string, ProofRule>(PROOF_RULES.map((rule) => [rule.id, rule]));
  const ownRules = new Map(document.ownRules.map((one) => [`own-${one.rule}`, one]));
  const systems = new Map(document.systems.map((one) => [`own:${one.system}`, one.name]));
  const rooms = new Map(document.rooms.map((one) => [one.room, one.name]));
  const surfaces = new Map(document.surfaces.map((one) => [one.surface, one.name]));
  const materials = new Map(document.materials.map((one) => [one.material, one]));
  const people = new Map(document.people.map((one) => [one.person, one.name]));
  const limits = new Map(document.limits.map((one) => [one.limit, one]));
  const letters = new Map(document.chains.map(({ device }, i) => [device, chainLetter(i)]));
  const photos = new Map(
    photoGroups(document.shots).flatMap(({ number, shots }) =>
      shots.map(({ id }, i) => [id, shots.length === 1 ? String(number) : `${number}${String.fromCharCode(97 + i)}`] as const),
    ),
  );
  const drawings = new Map((document.drawings ?? []).map(({ room, drawing }) => [room, drawing.things]));
  const lines = new Map(document.log.map((line) => [line.id, line]));

  const surface = (id: string | null): string => (id === null ? m.record_no_surface({}, { locale }) : (surfaces.get(id) ?? id));
  const quantity = ({ value, to, unit }: Pick<SaidQuantity, 'value' | 'to' | 'unit'>): string =>
    glued(to === null ? quantityText({ value, unit }, locale) : spanText({ value, to, unit }, locale));
  const day = ({ utc, offsetMin }: Moment): string => dateText(utc, offsetMin, locale);
  const clock = ({ utc, offsetMin }: Moment): string => glued(clockText(utc, offsetMin, locale));
  const place = ({ device, seq }: { device: string; seq: number }) => `${letters.get(device) ?? device} ${seq}`;
  const bounds = (limit: RecordLimit) => limitText(limit, locale);
  const source = (limit: Pick<RecordLimit, 'source'>) => limitSourceText({ ...limit, min: null, max: null, unit: 'count' }, locale);
  const measure = say(codes.MEASURE);
  const owed = (rule: string) => ownRules.get(rule)?.name ?? code(codes.OWED, rule);
  const photo = (id: string | null) => (id === null ? null : (photos.get(id) ?? null));

  return {
    locale,
    step: say(codes.STEP),
    layer: say(codes.LAYER),
    place: say(codes.PLACE),
    system: (system: string) => systems.get(system) ?? code(codes.SYSTEM, system),
    material: say(codes.MATERIAL),
    substrate: say(codes.SUBSTRATE),
    scale: say(codes.SCALE),
    wait: say(codes.WAIT),
    distance: say(codes.DISTANCE),
    level: say(codes.PROOF_LEVEL),
    how: say(codes.HOW),
    from: say(codes.FROM),
    kind: (kind: string) => code(codes.KIND, kind),
    verdict: say(codes.VERDICT),
    known: say(codes.KNOWN),
    measure,
    /** A code that means what it means in one field only. */
    choice: (field: string, one: string) => {
      const key = `${field}.${one}`;
      if (Object.hasOwn(CHOICE, key)) return code(CHOICE, key);
      return field === 'drain' ? code(codes.DRAIN, one) : code(codes.KNOWN, one);
    },
    yes: (yes: boolean) => (yes ? codes.KNOWN.yes({}, { locale }) : codes.KNOWN.no({}, { locale })),
    field: (kind: string, field: string) =>
      field === 'words' ? m.record_field_words({}, { locale }) : (fieldWord(kind, field)?.({}, { locale }) ?? field),
    owed,
    reason: (rule: string) => ownRules.get(rule)?.reason ?? code(codes.REASON, rules.get(rule)?.reason ?? ''),
    wanted: (rule: string) => rules.get(rule)?.want ?? null,
    room: (id: string) => rooms.get(id) ?? id,
    /** What stands in a room or goes through its walls, as it is drawn. */
    things: (room: string) => drawings.get(room) ?? [],
    surface,
    surfaces: (ids: readonly string[]) => (ids.length === 0 ? surface(null) : ids.map(surface).join(', ')),
    /** A surface or a room by its id. */
    target: (id: string) => surfaces.get(id) ?? rooms.get(id) ?? id,
    /** A lot of the job by its id, or what a pair names in its place: a substrate. */
    lot: (id: string) => {
      const found = materials.get(id);
      if (found === undefined) return code(codes.SUBSTRATE, id);
      return found.lot === '' ? found.name : m.record_lot({ name: found.name, lot: found.lot }, { locale });
    },
    // A person who gave no name has a random id, which says nothing on paper.
    person: (id: string) => people.get(id) ?? (UUID.test(id) ? m.record_no_name({}, { locale }) : id),
    /** Each name once: whoever takes up a second phone is named again. */
    everyone: [...new Set(document.people.map(({ name }) => name).filter((name) => name !== ''))],
    limit: (id: string | null) => (id === null ? null : (limits.get(id) ?? null)),
    value: ({ said }: Pick<RecordReading, 'said'>) => quantity(said),
    quantity,
    /** A length as the trade writes it, feet and inches. */
    size: ({ value, unit }: Pick<SaidQuantity, 'value' | 'unit'>) => glued(lengthText({ value, unit }, locale)),
    bounds,
    source,
    limitWhole: (limit: RecordLimit) => `${measure(limit.what)}: ${bounds(limit)}, ${source(limit)}`,
    day,
    /** Without its year, where that is plain. */
    dayShort: ({ utc, offsetMin }: Moment): string => dayText(utc, offsetMin, locale),
    clock,
    dayClock: (at: Moment) => `${day(at)}, ${clock(at)}`,
    calendarDay: (date: string) => dateText(`${date}T00:00:00Z`, 0, locale),
    duration: (from: Moment, to: Moment) => duration(from, to, locale),
    length: (ms: number) => glued(timeText(ms, locale)),
    /** Number of a photo in this record, with a letter where several show one place: `12`, `13a`. Null for one that is not in it. */
    photo,
    photoName: (id: string) => m.record_photo_number({ number: photo(id) ?? '' }, { locale }),
    /** Place of an entry in the log: the letter of its phone and its number. */
    entry: place,
    line: (id: string) => lines.get(id) ?? null,
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
const DAY_MS = 86_400_000;

/** Time between two moments, or null when a clock moved in between leaves none to tell. */
function duration(from: Moment, to: Moment, locale: Locale): string | null {
  const minutes = (Date.parse(to.utc) - Date.parse(from.utc)) / 60_000;
  return minutes < 0 || minutes > YEAR_MIN ? null : glued(durationText(minutes, locale));
}

/** Seconds where there are few, days where there are many: a sound is short, and a flat battery sends a clock back by fifty years. */
function timeText(ms: number, locale: Locale): string {
  const size = Math.abs(ms);
  const sign = ms < 0 ? '−' : '';
  if (size >= 100 * DAY_MS) return `${sign}${Math.round(size / DAY_MS)} d`;
  const seconds = Math.round(size / 1000);
  if (seconds < 60) return `${sign}${seconds} s`;
  if (seconds < 3600 && seconds % 60 > 0) return `${sign}${Math.floor(seconds / 60)} min ${seconds % 60} s`;
  return `${sign}${durationText(seconds / 60, locale)}`;
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
