import type { AnyUnit } from '../../measure/dimension.ts';
import type { Found } from './ask.ts';

/** The units each quantity is asked for and told in: where lengths are in inches, in millimetres, and as it is computed. */
const amount = <In extends AnyUnit, Mm extends AnyUnit, Si extends AnyUnit>(inches: In, mm: Mm, si: Si) =>
  ({ type: 'amount', in: inches, mm, si }) as const;

export const FILM = amount('mil', 'um', 'um');
export const LENGTH = amount('in', 'mm', 'mm');
export const LONG = amount('ft', 'm', 'mm');
export const AREA = amount('ft2', 'm2', 'm2');
export const WATER = amount('qt', 'L', 'L');
export const PAIL = amount('gal', 'L', 'L');
export const POWDER = amount('lb', 'kg', 'kg');
export const DEGREES = amount('F', 'C', 'C');
export const PERCENT = amount('%', '%', '%');
export const MINUTES = amount('min', 'min', 'min');
export const HOURS = amount('h', 'h', 'h');
/** Asked for in minutes or hours where the function takes ms. */
export const MINUTES_MS = { ...MINUTES, per: 60_000 } as const;
export const HOURS_MS = { ...HOURS, per: 3_600_000 } as const;
export const NUMBER = { type: 'number' } as const;

export const optional = <A extends object>(ask: A) => ({ ...ask, optional: true }) as const;
export const several = <In extends AnyUnit, Mm extends AnyUnit, Si extends AnyUnit>(ask: {
  readonly in: In;
  readonly mm: Mm;
  readonly si: Si;
}) => ({ type: 'amounts', in: ask.in, mm: ask.mm, si: ask.si }) as const;
export const choice = <Code extends string>(codes: readonly Code[]) => ({ type: 'choice', codes }) as const;

type Told = { readonly in: AnyUnit; readonly mm: AnyUnit; readonly si: AnyUnit };
export const found = (what: string, { in: inches, mm, si }: Told, low: number, high = low): Found => ({
  what,
  kind: 'amount',
  low,
  high,
  si,
  in: inches,
  mm,
});
