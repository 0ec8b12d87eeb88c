import { inUnit, type AnyUnit } from '../../measure/dimension.ts';
import { typedDecimal } from '../../measure/quantity.ts';
import { readQuantity } from '../../measure/quantity-text.ts';
import { fail, ok, type Result } from '../../result.ts';
import type { Computed, InputFault } from '../../trade/input.ts';
import type { Verdict } from '../../trade/limits.ts';

interface Left {
  /** It may stay empty, and is then null. */
  readonly optional?: true;
}
/** A value with a unit: the one a bare number is taken in where lengths are in inches, or in millimetres, and the one it is computed in. */
interface AmountAsk extends Left {
  readonly type: 'amount';
  readonly in: AnyUnit;
  readonly mm: AnyUnit;
  readonly si: AnyUnit;
  /** How many of what the function takes make one of `si`: 60,000 where minutes are asked for and ms taken. */
  readonly per?: number;
}
/** A number whose unit stands in its label. */
interface NumberAsk extends Left {
  readonly type: 'number';
}
/** Several values, one a line. */
interface AmountsAsk {
  readonly type: 'amounts';
  readonly in: AnyUnit;
  readonly mm: AnyUnit;
  readonly si: AnyUnit;
}
interface ChoiceAsk<Code extends string> {
  readonly type: 'choice';
  readonly codes: readonly Code[];
}
export type Ask = AmountAsk | NumberAsk | AmountsAsk | ChoiceAsk<string>;
export type Asks = Readonly<Record<string, Ask>>;

type ValueOf<A extends Ask> =
  A extends ChoiceAsk<infer Code>
    ? Code
    : A extends AmountsAsk
      ? readonly number[]
      : A extends { readonly optional: true }
        ? number | null
        : number;
type ValuesOf<A extends Asks> = { readonly [K in keyof A]: ValueOf<A[K]> };

/** What comes out: a value from low to high (the same twice for one), a count, a judgement, or a word of ours. */
export type Found = { readonly what: string } & (
  | {
      readonly kind: 'amount';
      readonly low: number;
      readonly high: number;
      readonly si: AnyUnit;
      readonly in: AnyUnit;
      readonly mm: AnyUnit;
    }
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'verdict'; readonly verdict: Verdict }
  | { readonly kind: 'word'; readonly code: string }
);

export const GROUPS = ['film', 'substrate', 'mortar', 'weather', 'flood', 'time'] as const;
export type Group = (typeof GROUPS)[number];

/** Something to be worked out: what it asks for, and the function of the trade that answers. */
export interface Reckoning {
  readonly code: string;
  readonly group: Group;
  readonly asks: Asks;
  /** The document it rests on, or null for common practice and plain proportion. */
  readonly source: string | null;
  readonly answer: (values: never) => Computed<readonly Found[]>;
}

export function reckoning<A extends Asks>(
  code: string,
  group: Group,
  source: string | null,
  asks: A,
  answer: (values: ValuesOf<A>) => Computed<readonly Found[]>,
): Reckoning {
  return { code, group, source, asks, answer: answer };
}

/** Why nothing comes out yet: the field, what is wrong, and the bound or the readings it speaks of. */
export interface AskFault {
  readonly field: string;
  readonly code: InputFault['code'] | 'empty-field' | 'not-a-quantity' | 'other-dimension' | 'in-doubt';
  readonly bound: number | null;
  readonly offers: readonly string[];
}

/**
 * What was typed, worked out: a bare number in the unit its field shows, else in the unit typed with it. Faults: of the first field that
 * cannot be read, or of the function, at the field it names.
 */
export function workOut(one: Reckoning, typed: Readonly<Record<string, string>>, units: 'in' | 'mm'): Result<readonly Found[], AskFault> {
  const values: Record<string, unknown> = {};
  for (const [field, ask] of Object.entries(one.asks)) {
    const read = valueOf(ask, typed[field] ?? '', units);
    if (!read.ok) return fail({ field, bound: null, offers: [], ...read.fault });
    values[field] = read.value;
  }
  const answered = one.answer(values as never);
  if (answered.ok) return answered;
  const { code, bound } = answered.fault;
  const field = fieldOf(one, answered.fault.field);
  const ask = one.asks[field];
  const per = ask?.type === 'amount' ? (ask.per ?? 1) : 1;
  return fail({ code, field, bound: bound === null ? null : bound / per, offers: [] });
}

/** The functions name a field with its place in a list or record; the page has one field for all of it. */
function fieldOf({ asks }: Reckoning, named: string): string {
  const parts = named.split(/[.[\]]+/);
  return parts.toReversed().find((part) => Object.hasOwn(asks, part)) ?? Object.keys(asks)[0]!;
}

type Unread = Pick<AskFault, 'code'> & Partial<AskFault>;

function valueOf(ask: Ask, text: string, units: 'in' | 'mm'): Result<unknown, Unread> {
  if (ask.type === 'choice') return ask.codes.includes(text) ? ok(text) : fail({ code: 'unknown-choice' });
  if (ask.type === 'amounts') {
    const lines = text.split(/[\n;]/).filter((line) => line.trim() !== '');
    if (lines.length === 0) return fail({ code: 'empty-field' });
    const read = lines.map((line) => amountOf(line, ask[units], ask.si));
    return read.find((line) => !line.ok) ?? ok(read.flatMap((line) => (line.ok ? [line.value] : [])));
  }
  if (text.trim() === '') return ask.optional === true ? ok(null) : fail({ code: 'empty-field' });
  if (ask.type === 'amount') {
    const value = amountOf(text, ask[units], ask.si);
    return value.ok ? ok(value.value * (ask.per ?? 1)) : value;
  }
  const value = typedDecimal(text.trim());
  return value === null ? fail({ code: 'not-a-number' }) : ok(Number(value));
}

function amountOf(text: string, unit: AnyUnit, si: AnyUnit): Result<number, Unread> {
  const bare = readQuantity(`${text} ${unit}`, [unit]);
  const typed = bare.ok || bare.fault.code === 'in-doubt' ? bare : readQuantity(text, [unit]);
  if (!typed.ok) return fail(typed.fault);
  const value = inUnit(typed.value.value, typed.value.unit, si);
  return value.ok ? value : fail({ code: 'not-a-number' });
}
