import type { SaidField, SaidQuantity } from '../job/said-field.ts';
import * as m from '../words/compiled/messages.js';
import { fieldWord } from '../words/fields.ts';
import { listText } from '../words/list.ts';
import { moneyText } from '../words/money.ts';
import type { RecordLine } from './record-document.ts';
import { grouped, sentence, type Speaker } from './speaker.ts';
import { spotName, spotOfKey } from './spot-of-key.ts';

/** Digits of a file's hash that are printed where it is only pointed at. */
const SHORT = 16;

/** What a field says, without its label. Instants are shown on the dial of the phone that wrote the entry. */
export function saidText(field: SaidField, line: Pick<RecordLine, 'at'>, say: Speaker): string {
  const { locale } = say;
  const { offsetMin } = line.at;
  switch (field.is) {
    case 'words':
    case 'tag':
      return field.text;
    case 'code':
      return field.codes.map((code) => codeText(field, code, say)).join(', ');
    case 'quantity':
      return [quantityText(field, say), ...asSaid(field, say), ...toStep(field, say)].join(' ');
    case 'number':
      return String(field.n);
    case 'duration':
      return say.length(field.ms);
    case 'yes':
      return say.yes(field.yes);
    case 'ids':
      return field.ids.map((id) => idText(field.of, id, say)).join(', ');
    case 'instant':
      return say.dayClock({ utc: field.utc, offsetMin });
    case 'day':
      return say.calendarDay(field.day);
    case 'files':
      return field.files.map((file) => fileText(file, SHORT, say)).join('; ');
    case 'source':
      return say.source({ source: { kind: field.kind, text: field.text } });
    case 'key':
      return field.public === null ? m.record_key_none({ why: field.why ?? '' }, { locale }) : `Ed25519 ${grouped(field.public, SHORT)}`;
    case 'spot':
      return spotName(field.spot, field.room, say);
    case 'money':
      return moneyText(field, locale);
    case 'list':
      return listText(field.items, (one) => `${fieldWord(field.of, one.field)?.({}, { locale }) ?? one.field} ${saidText(one, line, say)}`);
    case 'heads':
      return field.heads.map((head) => `${say.entry(head)} ${grouped(head.hash, SHORT)}`).join(', ');
  }
}

/** Minutes that nobody put into words are said as hours where they are many: a hold of 1440 min is one of 24 h. */
function quantityText(said: SaidQuantity, say: Speaker): string {
  return said.unit === 'min' && said.text === null ? say.length(Number(said.value) * 60_000) : say.quantity(said);
}

/** The words a value was said in, where they are more than its number. */
export function asSaid(said: SaidQuantity, say: Speaker): string[] {
  const { text } = said;
  const isNumber = text === null || text === said.value || say.quantity(said).replaceAll('\u00a0', ' ').startsWith(text);
  return isNumber ? [] : [m.record_as_said({ text }, { locale: say.locale })];
}

export function toStep({ resolution, unit }: SaidQuantity, say: Speaker): string[] {
  return resolution === null
    ? []
    : [m.record_to_step({ step: say.quantity({ value: resolution, to: null, unit }) }, { locale: say.locale })];
}

/** Every field with its label, a sentence each. */
export function saidSentences(fields: readonly SaidField[], line: RecordLine, say: Speaker): string {
  return fields.map((field) => sentence(`${say.field(line.kind, field.field)}: ${saidText(field, line, say)}`)).join(' ');
}

/** An entry pointed at: a photo by its number, a limit by what it asks, any other by its place in the log and its kind. */
export function pointedText(id: string, say: Speaker): string {
  if (say.photo(id) !== null) return say.photoName(id);
  const line = say.line(id);
  if (line !== null) return `${say.entry(line)} (${say.kind(line.kind)})`;
  const limit = say.limit(id);
  return limit === null ? say.lot(id) : say.limitWhole(limit);
}

/** Type, size and as many digits of the hash as asked for. */
export function fileText(
  { sha256, bytes, type }: { sha256: string; bytes: number; type: string },
  digits: number,
  { locale }: Speaker,
): string {
  return m.record_file({ type, bytes, hash: grouped(sha256, digits) }, { locale });
}

/** An item of proof by its key: rule, surface or room, and coat where it is owed for each. */
export function itemText(key: string, say: Speaker): string {
  const [rule = '', where = '', coat] = key.split(':');
  const [target = ''] = where.split('@');
  const name = [`${say.owed(rule)}: ${say.target(target)}`, ...spotOfKey(key, say)].join(', ');
  return coat === undefined ? name : `${name}, ${m.record_coat({ coat }, { locale: say.locale })}`;
}

function codeText({ of, field }: Extract<SaidField, { is: 'code' }>, code: string, say: Speaker): string {
  if (of === 'choice') return say.choice(field, code);
  if (of === 'want') return code === 'shot' ? say.kind('shot') : say.measure(code as Parameters<Speaker['measure']>[0]);
  return say[of](code as never);
}

function idText(of: Extract<SaidField, { is: 'ids' }>['of'], id: string, say: Speaker): string {
  switch (of) {
    case 'surface':
      return say.surface(id);
    case 'room':
      return say.room(id);
    case 'material':
      return say.lot(id);
    case 'limit':
      return pointedText(id, say);
    case 'entry':
      return pointedText(id, say);
    case 'rule':
      return say.owed(id);
    case 'item':
      return itemText(id, say);
    case 'person':
      return say.person(id);
  }
}
