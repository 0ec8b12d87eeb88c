import { SCHEMAS, type DataOf, type Kind } from '../record/kinds.ts';
import { BELOW, CAUSES, ISOLATION_TESTS, SHOWS } from '../record/kinds/callback.ts';
import { SCALES, type Quantity, type Unit } from '../record/kinds/reading.ts';
import type { Money } from '../measure/money.ts';
import { STEPS, type Picture } from '../record/kinds/setup.ts';
import { MEASURE_KINDS } from './measures.ts';

/** The kinds that people state on a form, in groups by when in the job they come up. */
export const FORM_GROUPS = {
  before: ['person', 'conditions', 'survey', 'by-others'],
  during: ['mix', 'note', 'deviation', 'repair', 'early', 'not-done', 'inspection'],
  after: ['protect', 'tile-check', 'attestation', 'hand-over', 'later-hole'],
  callback: ['callback', 'isolation', 'isolation-look', 'opening'],
} as const satisfies Readonly<Record<string, readonly Kind[]>>;
export type FormGroup = keyof typeof FORM_GROUPS;
export type FormKind = (typeof FORM_GROUPS)[FormGroup][number];
export const FORM_KINDS: readonly FormKind[] = Object.values(FORM_GROUPS).flat();

interface Asked {
  /** It cannot be kept without. For surfaces: at least one; else none touched stands for the whole job. */
  readonly required?: true;
}
/** Sentences, over several lines. */
interface WordsField extends Asked {
  readonly type: 'words';
}
/** A name or number on one line. */
interface LineField extends Asked {
  readonly type: 'line';
  /** What it says before anything is typed. */
  readonly first?: 'permit';
}
interface ChoiceField<Code extends string> extends Asked {
  readonly type: 'choice';
  readonly codes: readonly Code[];
}
/** Answered one way or the other: nothing is taken for granted. */
interface YesNoField {
  readonly type: 'yes-no';
  readonly required: true;
}
interface SurfacesField extends Asked {
  readonly type: 'surfaces';
}
/** A calendar day, today until another is picked; a day to come cannot be reported on. */
interface DayField {
  readonly type: 'day';
  readonly required: true;
}
/** A value with its unit: the one it is spoken in where lengths are in inches, or in millimetres, and what can be meant. */
interface AmountField {
  readonly type: 'amount';
  readonly of: Amount;
}
export interface Amount {
  readonly in: Unit;
  readonly mm: Unit;
  readonly largest: readonly [value: string, unit: Unit];
  readonly least?: readonly [value: string, unit: Unit];
}
/** A sum with its currency, on one line. */
interface MoneyField {
  readonly type: 'money';
}
/** Entries of the log, or owed items by their keys: those it may speak of are offered. */
interface EntriesField extends Asked {
  readonly type: 'entries';
  readonly offers: 'to-mend' | 'owed';
}
/** One entry, or a limit. `none`: what its field holds where nothing is chosen. */
interface EntryField extends Asked {
  readonly type: 'entry';
  readonly offers: 'broken' | 'waits' | 'pails' | 'callbacks' | 'isolations';
  readonly none: 'null' | 'absent';
}
interface MaterialField extends Asked {
  readonly type: 'material';
}
/** Drawn with a finger, beside the name that is the statement. */
interface SignatureField {
  readonly type: 'signature';
}
/** A field of the entry that no form asks for. */
interface Unasked {
  readonly type: 'unasked';
  readonly why: string;
}

export type FormField =
  WordsField | LineField | ChoiceField<string> | YesNoField | SurfacesField | DayField | AmountField | MoneyField | EntriesField | EntryField | MaterialField | SignatureField; // prettier-ignore

/** The ways to ask for a value, by its type in the schema. */
type WayFor<Value> = [Value] extends [boolean]
  ? YesNoField
  : [Value] extends [readonly string[]]
    ? SurfacesField | EntriesField
    : [Value] extends [Picture]
      ? SignatureField
      : [Value] extends [Quantity]
        ? AmountField
        : [Value] extends [Money]
          ? MoneyField
          : [Value] extends [string]
            ? string extends Value
              ? WordsField | LineField | DayField | EntryField | MaterialField
              : ChoiceField<Value>
            : never;

type Named<T> = { [F in keyof T as string extends F ? never : F]: T[F] };
type FieldsOf<K extends Kind> = { readonly [F in keyof Named<Required<DataOf<K>>>]: WayFor<NonNullable<DataOf<K>[F]>> | Unasked };

const words = { type: 'words' } as const;
const line = { type: 'line' } as const;
const yesNo = { type: 'yes-no', required: true } as const;
const surfaces = { type: 'surfaces' } as const;
const signature = { type: 'signature' } as const;
const required = { required: true } as const;
const choice = <Code extends string>(codes: readonly Code[]) => ({ type: 'choice', codes, ...required }) as const;
/** Said once it is known. */
const maybe = <Code extends string>(codes: readonly Code[]) => ({ type: 'choice', codes }) as const;
const amount = (of: Amount) => ({ type: 'amount', of }) as const;

/** Bounds are common sense, no source: they catch slips of a finger. */
const POWDER: Amount = { in: 'lb', mm: 'kg', largest: ['1000', 'kg'] };
const WATER: Amount = { in: 'qt', mm: 'L', largest: ['1000', 'L'] };
const HOURS: Amount = { in: 'h', mm: 'h', largest: ['1000', 'h'] };
/** How it looks where the water shows. */
const seen = { below: choice(BELOW), moisture: amount(MEASURE_KINDS.moisture), scale: maybe(SCALES) } as const;
const AIR = amount(MEASURE_KINDS['air-temperature']);

/**
 * Every form: the fields of its kind in the order in which they are asked. A field added to a schema does not compile until it
 * stands here, nor does a way of asking that does not fit it.
 */
export const FORMS: { readonly [K in FormKind]: FieldsOf<K> } = {
  person: { person: { type: 'unasked', why: 'whoever holds this phone' }, name: { ...line, ...required } },
  conditions: {
    air: AIR,
    humidity: amount(MEASURE_KINDS.humidity),
    surface: amount(MEASURE_KINDS['surface-temperature']),
    lowest: AIR,
    highest: AIR,
    from: { type: 'unasked', why: 'the book knows which values it carried over' },
  },
  survey: {
    surfaces,
    result: choice(SCHEMAS.survey.shape.result.options),
    drop: choice(SCHEMAS.survey.shape.drop.options),
    found: words,
    told: words,
  },
  'by-others': { who: { ...line, ...required }, what: { ...words, ...required }, surfaces },
  mix: {
    same: { type: 'entry', offers: 'pails', none: 'absent' },
    material: { type: 'material' },
    powder: amount(POWDER),
    water: amount(WATER),
    surfaces,
  },
  note: { words: { ...words, ...required }, surfaces },
  deviation: {
    what: { ...words, ...required },
    surfaces: { ...surfaces, ...required },
    against: { type: 'entry', offers: 'broken', none: 'null' },
    why: words,
    accepted: words,
  },
  repair: { of: { type: 'entries', offers: 'to-mend' }, what: { ...words, ...required }, surfaces: { ...surfaces, ...required } },
  early: {
    wait: { type: 'entry', offers: 'waits', none: 'null', ...required },
    reason: choice(SCHEMAS.early.shape.reason.options),
    check: choice(SCHEMAS.early.shape.check.options),
    held: yesNo,
    words,
  },
  'not-done': {
    step: choice(STEPS),
    surfaces,
    items: { type: 'entries', offers: 'owed' },
    covered: yesNo,
    reason: choice(SCHEMAS['not-done'].shape.reason.options),
    words,
  },
  inspection: {
    what: choice(SCHEMAS.inspection.shape.what.options),
    result: choice(SCHEMAS.inspection.shape.result.options),
    permit: { ...line, first: 'permit' },
    day: { type: 'day', ...required },
    who: line,
    words,
  },
  protect: { how: { ...words, ...required }, surfaces },
  'tile-check': { surfaces, whole: yesNo, dry: yesNo, undamaged: yesNo, words },
  attestation: { surfaces, words, signature },
  'hand-over': { who: { ...line, ...required }, role: choice(SCHEMAS['hand-over'].shape.role.options), surfaces, words, signature },
  'later-hole': { surfaces: { ...surfaces, ...required }, what: { ...words, ...required }, who: line, sealed: words },
  callback: {
    complaint: { ...words, ...required },
    shows: maybe(SHOWS),
    surfaces,
    looked: words,
    found: words,
    cause: maybe(CAUSES),
    warranty: maybe(['yes', 'no', 'undecided']),
    took: amount(HOURS),
    cost: { type: 'money' },
    answer: words,
    stand: maybe(['open', 'closed']),
  },
  isolation: {
    callback: { type: 'entry', offers: 'callbacks', none: 'absent', ...required },
    test: choice(ISOLATION_TESTS),
    height: amount(MEASURE_KINDS.upturn),
    ...seen,
    words,
  },
  'isolation-look': { isolation: { type: 'entry', offers: 'isolations', none: 'absent', ...required }, ...seen, words },
  opening: {
    callback: { type: 'entry', offers: 'callbacks', none: 'absent', ...required },
    told: choice(SCHEMAS.opening.shape.told.options),
    who: words,
    surfaces,
    sample: words,
  },
};

/** The fields a form asks for, in order. */
export function fieldsOf(kind: FormKind): [name: string, field: FormField][] {
  return Object.entries<FormField | Unasked>(FORMS[kind]).filter((one): one is [string, FormField] => one[1].type !== 'unasked');
}

export function isFormKind(kind: string | null): kind is FormKind {
  return FORM_KINDS.some((one) => one === kind);
}
