import type { SaidField } from '#lib/job/said-field.ts';
import type { JobState } from '#lib/job/state.ts';
import * as codes from '#lib/words/codes.ts';
import { CHOICE, FIELD, fieldWord } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { listText } from '#lib/words/list.ts';
import { moneyText } from '#lib/words/money.ts';
import { limitSourceText, limitText } from '#lib/words/limit.ts';
import { quantityText, spanText } from '#lib/words/number.ts';
import { featureName } from '#lib/words/place.ts';
import { spotText } from '#lib/words/spot.ts';
import { clockText, dateText, dayText, durationText } from '#lib/words/time.ts';

type Lang = 'en' | 'es';
type Words = Readonly<Record<string, (facts: Record<string, never>) => string>>;

/** One field of an entry in words. */
export interface SaidRow {
  readonly field: string;
  readonly label: string;
  readonly text: string;
}

/** Every field with its label. Instants are shown on the dial of the phone that wrote the entry. */
export function saidRows(kind: string, fields: readonly SaidField[], offsetMin: number, job: JobState, lang: Lang): SaidRow[] {
  return fields.map((field) => ({
    field: field.field,
    label: fieldWord(kind, field.field)?.({}) ?? field.field,
    text: fieldText(field, offsetMin, job, lang),
  }));
}

/** What a field says, without its label. What has no word is said by its code, never left out. */
export function fieldText(field: SaidField, offsetMin: number, job: JobState, lang: Lang): string {
  switch (field.is) {
    case 'words':
    case 'tag':
      return field.text;
    case 'code':
      return field.codes.map((code) => codeText(field.of, field.field, code, job)).join(', ');
    case 'quantity':
      return field.to === null ? quantityText(field, lang) : spanText({ ...field, to: field.to }, lang);
    case 'number':
      return String(field.n);
    case 'duration':
      return Math.abs(field.ms) < 60_000
        ? m.log_ms({ seconds: Math.round(field.ms / 1000) })
        : `${field.ms < 0 ? '-' : ''}${durationText(Math.abs(field.ms) / 60_000, lang)}`;
    case 'yes':
      return field.yes ? m.log_yes() : m.log_no();
    case 'ids':
      return field.ids.map((id) => idText(field.of, id, job, lang)).join(', ');
    case 'instant':
      return `${dayText(field.utc, offsetMin, lang)} ${clockText(field.utc, offsetMin, lang)}`;
    case 'day':
      return dateText(`${field.day}T00:00:00Z`, 0, lang);
    case 'files':
      return m.log_files({ n: field.files.length });
    case 'source':
      return limitSourceText({ source: { kind: field.kind, text: field.text }, min: null, max: null, unit: 'count' });
    case 'key':
      return field.public === null ? m.device_unsigned() : `Ed25519 ${field.public.slice(0, 16)}`;
    case 'spot':
      return spotOfRoom(field.spot, field.room, job);
    case 'money':
      return moneyText(field, lang);
    case 'list':
      return listText(field.items, (one) => `${fieldWord(field.of, one.field)?.({}) ?? one.field} ${fieldText(one, offsetMin, job, lang)}`);
    case 'heads':
      return field.heads.map(({ seq, hash }) => `${seq} ${hash.slice(0, 8)}`).join(', ');
  }
}

const FAMILY = {
  step: codes.STEP,
  measure: codes.MEASURE,
  wait: codes.WAIT,
  material: codes.MATERIAL,
  place: codes.PLACE,
  substrate: codes.SUBSTRATE,
  scale: codes.SCALE,
  level: codes.PROOF_LEVEL,
  distance: codes.DISTANCE,
  how: codes.HOW,
  from: codes.FROM,
} as const satisfies Partial<Record<Extract<SaidField, { is: 'code' }>['of'], Words>>;

function codeText(of: Extract<SaidField, { is: 'code' }>['of'], field: string, code: string, job: JobState): string {
  if (of === 'system') return job.ownSystems.find(({ system }) => `own:${system}` === code)?.name ?? wordOf(codes.SYSTEM, code);
  if (of === 'want') return code === 'shot' ? codes.KIND.shot() : wordOf(codes.MEASURE, code);
  if (of !== 'choice') return wordOf(FAMILY[of], code);
  const choice = `${field}.${code}`;
  if (Object.hasOwn(CHOICE, choice)) return wordOf(CHOICE, choice);
  return wordOf(field === 'drain' ? codes.DRAIN : codes.KNOWN, code);
}

/** The word for a code; a code that a newer version wrote stands for itself. */
export function wordOf(words: Words, code: string): string {
  return Object.hasOwn(words, code) ? words[code]!({}) : code;
}

function idText(of: Extract<SaidField, { is: 'ids' }>['of'], id: string, job: JobState, lang: Lang): string {
  switch (of) {
    case 'surface':
      return job.surfaces.find(({ surface }) => surface === id)?.name ?? id;
    case 'room':
      return job.rooms.find(({ room }) => room === id)?.name ?? id;
    case 'material':
      return lotText(id, job);
    case 'rule':
      return ruleText(id, job);
    case 'item':
      return itemText(id, job);
    case 'person':
      return job.people[id] ?? id;
    case 'limit':
    case 'entry':
      return pointedText(id, job, lang);
  }
}

/** A lot by its name and number; a pair may name a substrate in its place. */
export function lotText(id: string, job: JobState): string {
  const found = job.materials.find(({ material }) => material === id);
  if (found === undefined) return wordOf(codes.SUBSTRATE, id);
  return found.lot === '' ? found.name : `${found.name}, ${found.lot}`;
}

/** A place of a room's drawing by its id. */
export function spotOfRoom(spot: string, room: string, job: JobState): string {
  return spotText(spot, thingOfRoom(room, job));
}

/** A seam, joint, corner piece or collar of a room by its id. */
export function featureOfRoom(of: { readonly is: string; readonly id: string }, room: string, job: JobState, lang: Lang): string {
  return featureName(of, thingOfRoom(room, job), lang);
}

function thingOfRoom(room: string, job: JobState): (at: number) => string {
  const things = job.drawings.find((one) => one.room === room)?.data.things ?? [];
  return (at) => m.draw_thing_n({ thing: things[at] === undefined ? FIELD.thing() : CHOICE[`thing.${things[at].thing}`](), n: at + 1 });
}

function ruleText(id: string, job: JobState): string {
  return job.ownRules.find(({ rule }) => `own-${rule}` === id)?.name ?? wordOf(codes.OWED, id);
}

/** An owed item by its key: rule, surface or room, and coat where it is owed for each. */
export function itemText(key: string, job: JobState): string {
  const [rule = '', where = '', coat] = key.split(':');
  const [target = '', spot] = where.split('@');
  const on =
    job.surfaces.find(({ surface }) => surface === target)?.name ?? job.rooms.find(({ room }) => room === target)?.name ?? job.name;
  return [
    ruleText(rule, job),
    on,
    ...(spot === undefined ? [] : [spotOfRoom(spot, target, job)]),
    ...(coat === undefined ? [] : [`${FIELD.coat()} ${coat}`]),
  ].join(', ');
}

/** An entry or a limit that another speaks of: what it is, and when. */
export function pointedText(id: string, job: JobState, lang: Lang): string {
  const limit = job.limits.find((one) => one.limit === id);
  if (limit !== undefined) return `${codes.MEASURE[limit.what]()}: ${limitText(limit, lang)}`;
  const entry = job.lines.find((line) => line.entry.body.id === id)?.entry;
  if (entry === undefined) return lotText(id, job);
  const { utc, offsetMin } = entry.body.times;
  return `${wordOf(codes.KIND, entry.body.kind)}, ${dayText(utc, offsetMin, lang)} ${clockText(utc, offsetMin, lang)}`;
}
