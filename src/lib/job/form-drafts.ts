import { baseOf, dimensionOf } from '../measure/dimension.ts';
import { parseInches } from '../measure/inch.ts';
import { moneyDecimal, typedMoney, type Money } from '../measure/money.ts';
import { typedDecimal } from '../measure/quantity.ts';
import { Id } from '../record/entry.ts';
import { knownData, type Draft } from '../record/kinds.ts';
import type { Quantity, Unit } from '../record/kinds/reading.ts';
import type { Picture } from '../record/kinds/setup.ts';
import { fail, ok, type Result } from '../result.ts';
import { fieldsOf, type Amount, type FormField, type FormKind } from './forms.ts';

/** What stands in the fields of a form: text, codes and ids as text, `yes` or `no`; lists for what can be several. */
export type Typed = Readonly<Record<string, string | readonly string[]>>;

/** Why a field cannot stand as it is. `field` is its name in the entry. */
export interface FormFault {
  readonly field: string;
  readonly code:
    | 'empty' | 'too-long' | 'not-chosen' | 'not-answered' | 'no-surface' | 'none-picked' | 'too-many'
    | 'not-a-number' | 'too-large' | 'too-small' | 'not-a-day' | 'day-to-come' | 'nothing-said' | 'not-a-sum' | 'low-above-high' | 'no-name'; // prettier-ignore
}

/** What a form is read against. */
export interface Around {
  readonly units: 'in' | 'mm';
  /** The calendar day it is here. */
  readonly today: string;
  /** Pictures drawn for signatures, by field. */
  readonly pictures?: Readonly<Record<string, Picture>>;
  /** Units that stand already, by field: a value once said in °F is corrected in °F. */
  readonly unitsSaid?: Readonly<Record<string, Unit>>;
  /** The entry that values were carried over from. */
  readonly from?: string | null;
  readonly run?: string | null;
  /** Whom a name is of: whoever holds the phone, or whose name is amended. */
  readonly person?: string;
  /** False where nobody has said who that is. */
  readonly named?: boolean;
}

const WORDS_MAX = 2_000;
const LINE_MAX = 200;
const SURFACES_MAX = 100;
const ENTRIES_MAX = 50;
const ITEMS_MAX = 200;

/**
 * The entry that a form says, or every field that stands in the way; what was typed stays with the caller. Its refs name the
 * entries it speaks of, so that it is read after them.
 */
export function formDraft(kind: FormKind, typed: Typed, around: Around): Result<Draft, FormFault[]> {
  const faults: FormFault[] = [];
  const data: Record<string, unknown> = {};
  const refs: string[] = [];
  for (const [name, field] of fieldsOf(kind)) {
    const read = readField(name, field, typed[name] ?? '', around);
    if (!read.ok) faults.push({ field: name, code: read.fault });
    else if (read.value !== undefined) data[name] = read.value;
    if (field.type === 'entry' || (field.type === 'entries' && field.offers === 'to-mend')) refs.push(...idsOf(typed[name]));
  }
  faults.push(...acrossFields(kind, typed, data, faults));
  // Nobody cannot answer for the work.
  if (kind === 'attestation' && around.named === false) faults.push({ field: 'person', code: 'no-name' });
  if (faults.length > 0) return fail(faults);
  const from = kind === 'conditions' ? (around.from ?? null) : null;
  if (from !== null) {
    data['from'] = from;
    refs.push(from);
  }
  if (kind === 'person') data['person'] = around.person;
  if (knownData(kind, data).kind === 'unknown')
    throw new TypeError(`${kind}: the form says what its schema does not take: ${JSON.stringify(data)}`);
  const { run = null } = around;
  // The schema has taken it: data is of its kind.
  return ok({ kind, ...(run === null ? {} : { run }), refs, data } as unknown as Draft);
}

/** What one field holds in the entry; undefined where the field is left out of it. */
function readField(name: string, field: FormField, typed: string | readonly string[], around: Around): Result<unknown, FormFault['code']> {
  const text = typeof typed === 'string' ? typed.trim().toWellFormed() : '';
  const missing = 'required' in field;
  switch (field.type) {
    case 'words':
    case 'line':
      if (text === '') return missing ? fail('empty') : ok('');
      return text.length > (field.type === 'line' ? LINE_MAX : WORDS_MAX) ? fail('too-long') : ok(text);
    case 'choice':
      if (text === '' && !missing) return ok(undefined);
      return field.codes.includes(text) ? ok(text) : fail('not-chosen');
    case 'yes-no':
      return text === 'yes' || text === 'no' ? ok(text === 'yes') : fail('not-answered');
    case 'surfaces':
      if (missing && idsOf(typed).length === 0) return fail('no-surface');
      return idsOf(typed).length > SURFACES_MAX ? fail('too-many') : ok(idsOf(typed));
    case 'entries': {
      const said = field.offers === 'owed' ? listOf(typed).filter((key) => key.length <= LINE_MAX) : idsOf(typed);
      return said.length > (field.offers === 'owed' ? ITEMS_MAX : ENTRIES_MAX) ? fail('too-many') : ok([...said]);
    }
    case 'entry':
      if (idsOf(typed).length > 0) return ok(idsOf(typed)[0]);
      return missing ? fail('none-picked') : ok(field.none === 'null' ? null : undefined);
    case 'material':
      return ok(idsOf(typed)[0] ?? null);
    case 'day':
      if (!isDay(text)) return fail('not-a-day');
      return text > around.today ? fail('day-to-come') : ok(text);
    case 'amount':
      return text === '' ? ok(undefined) : typedAmount(text, field.of, around.unitsSaid?.[name] ?? field.of[around.units]);
    case 'money': {
      if (text === '') return ok(undefined);
      const sum = typedMoney(text);
      return sum === null ? fail('not-a-sum') : ok(sum);
    }
    case 'signature':
      return ok(around.pictures?.[name]);
  }
}

function acrossFields(kind: FormKind, typed: Typed, data: Readonly<Record<string, unknown>>, faults: readonly FormFault[]): FormFault[] {
  const said = (name: string) => listOf(typed[name]).some((text) => text.trim() !== '');
  if (kind === 'conditions') {
    const { lowest, highest } = data as { lowest?: Quantity; highest?: Quantity };
    if (!fieldsOf(kind).some(([name]) => said(name))) return [{ field: 'air', code: 'nothing-said' }];
    return lowest !== undefined && highest !== undefined && sizeOf(lowest) > sizeOf(highest)
      ? [{ field: 'highest', code: 'low-above-high' }]
      : [];
  }
  // Two readings of a meter say something of each other in one scale alone.
  if (data['moisture'] !== undefined && data['scale'] === undefined && !faults.some(({ field }) => field === 'scale'))
    return [{ field: 'scale', code: 'not-chosen' }];
  if (kind === 'mix' && !['same', 'material', 'powder', 'water'].some(said)) return [{ field: 'material', code: 'nothing-said' }];
  const doubted = kind === 'survey' && (data['result'] === 'with-reservation' || data['result'] === 'refused');
  return doubted && !said('found') && !faults.some(({ field }) => field === 'found') ? [{ field: 'found', code: 'empty' }] : [];
}

/**
 * A value typed with or without a minus, a decimal comma read as a point, inches also as fractions (`2 1/4`). Faults: no number, or
 * beyond what can be meant.
 */
export function typedAmount(typed: string, of: Amount, unit: Unit): Result<Quantity, 'not-a-number' | 'too-large' | 'too-small'> {
  const text = typed.trim();
  const sign = /^[-−]/.test(text) ? '-' : '';
  const bare = sign === '' ? text : text.slice(1);
  const decimal = unit === 'in' ? parseInches(bare) : typedDecimal(bare);
  if (decimal === null || dimensionOf(unit) !== dimensionOf(of.mm)) return fail('not-a-number');
  const value = `${sign}${decimal}`;
  const size = baseOf(value, unit);
  if (!size.ok || size.value > sizeOf(pairOf(of.largest))) return fail(sign === '' ? 'too-large' : 'too-small');
  const least = of.least === undefined ? null : sizeOf(pairOf(of.least));
  if (least === null ? size.value <= 0 : size.value < least) return fail('too-small');
  return ok({ text, value, unit });
}

const pairOf = ([value, unit]: readonly [string, Unit]) => ({ value, unit });

function sizeOf({ value, unit }: Pick<Quantity, 'value' | 'unit'>): number {
  const size = baseOf(value, unit);
  if (!size.ok) throw new RangeError(`${value} ${unit}: ${size.fault.code}`);
  return size.value;
}

function isDay(text: string): boolean {
  return /^\d{4}-\d\d-\d\d$/.test(text) && (new Date(`${text}T00:00:00Z`).toJSON() as string | null)?.startsWith(text) === true;
}

/** What is typed as a list: none, one, or several. */
export function listOf(typed: string | readonly string[] | undefined): readonly string[] {
  if (typed === undefined || typed === '') return [];
  return typeof typed === 'string' ? [typed] : typed;
}

/** The ids among it. They are touched, or come by a link, never typed: what is none is left out. */
function idsOf(typed: string | readonly string[] | undefined): string[] {
  return listOf(typed).filter((id) => Id.safeParse(id).success);
}

/** An entry's data as its form shows it, to be amended, and the units its values were said in. A drawn signature is not carried over. */
export function typedOf(
  kind: FormKind,
  data: Readonly<Record<string, unknown>>,
): { typed: Typed; unitsSaid: Readonly<Record<string, Unit>> } {
  const typed: Record<string, string | readonly string[]> = {};
  const unitsSaid: Record<string, Unit> = {};
  for (const [name, field] of fieldsOf(kind)) {
    const value = data[name];
    if (value === undefined || value === null || field.type === 'signature') continue;
    if (field.type === 'amount') {
      const said = value as Quantity;
      typed[name] = said.value;
      unitsSaid[name] = said.unit;
    } else if (field.type === 'money') {
      const sum = value as Money;
      typed[name] = `${moneyDecimal(sum)} ${sum.currency}`;
    } else if (field.type === 'yes-no') typed[name] = value === true ? 'yes' : 'no';
    else typed[name] = value as string | readonly string[];
  }
  return { typed, unitsSaid };
}

/**
 * The data that stands in place of an entry's own: what the form says now, and whatever a newer version wrote beside it. What the form
 * left out is gone from it, a signature too: it was set under other words.
 */
export function amendedData(
  kind: FormKind,
  before: Readonly<Record<string, unknown>>,
  said: Readonly<Record<string, unknown>>,
): Record<string, unknown> {
  const asked = new Set(fieldsOf(kind).map(([name]) => name));
  return { ...Object.fromEntries(Object.entries(before).filter(([name]) => !asked.has(name))), ...said };
}
