import type { Result } from '#lib/result.ts';

/** A typed fault of an input: its field, a code, and what the code speaks of. */
export interface ComputeFault {
  readonly field: string;
  readonly code: string;
  readonly bound?: number | null;
  readonly offers?: readonly string[];
}

export const PARTS = ['units', 'film', 'substrate', 'mortar', 'weather', 'waits', 'flood', 'time-and-material'] as const;
export type Part = (typeof PARTS)[number];

/** The keys of every form that a result can take. */
type Keys<T> = T extends object ? Extract<keyof T, string> : never;

/** What is told of a function: each field of its input and of its result, with its unit, so that no field can be forgotten. */
interface Told<Given, Value> {
  readonly part: Part;
  readonly what: string;
  readonly inputs: { readonly [K in Keys<Given>]: string };
  readonly result: { readonly [K in Keys<Value>]: string };
  readonly source: string;
  /** Where it holds, and what it must not be used for. */
  readonly limits: string;
  /** An input that computes. */
  readonly example: Given;
}

export interface Row {
  readonly name: string;
  readonly part: Part;
  readonly what: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly result: Readonly<Record<string, string>>;
  readonly source: string;
  readonly limits: string;
  readonly example: object;
  /** Takes what came from a file: the functions check it field by field, and tell a fault where it does not fit. */
  readonly call: (given: object) => Result<object, ComputeFault>;
}

/** A function of the trade with what is told of it; it is called by its own name. */
export function row<Given extends object, Value extends object>(
  compute: (given: Given) => Result<Value, ComputeFault>,
  told: Told<Given, Value>,
): Row {
  return { name: compute.name, ...told, call: compute as unknown as Row['call'] };
}
