// Lengths of a drawing, exactly. A number with at most four decimals, in whatever unit, is kept as a whole number of ten-thousandths of
// that unit; ratios of such numbers are a pair of BigInts. So nothing that decides is ever rounded.

/** Ten-thousandths in one unit of the drawing. */
const PARTS = 10_000;

/** The longest coordinate, in units of the drawing: 100 m in mm. Below it a double tells two coordinates well apart. */
export const FARTHEST = 100_000;

const FOUR_PLACES = /^-?\d+(?:\.\d{1,4})?$/;

/** Whole ten-thousandths of a decimal number, or null when it has more than four places or is no plain number. */
export function tenThousandths(value: number): number | null {
  return FOUR_PLACES.test(String(value)) ? Math.round(value * PARTS) : null;
}

/** The decimal number of whole ten-thousandths: the double nearest to it, which prints as it. */
export function fromTenThousandths(parts: number): number {
  return parts / PARTS;
}

/** A ratio of whole numbers, `under` above zero, not reduced. */
export interface Ratio {
  readonly over: bigint;
  readonly under: bigint;
}

export function ratio(whole: number): Ratio {
  return { over: BigInt(whole), under: 1n };
}

export function minus(a: Ratio, b: Ratio): Ratio {
  return { over: a.over * b.under - b.over * a.under, under: a.under * b.under };
}

export function compare(a: Ratio, b: Ratio): -1 | 0 | 1 {
  return signOf(a.over * b.under - b.over * a.under);
}

export function signOf(value: bigint): -1 | 0 | 1 {
  return value > 0n ? 1 : value < 0n ? -1 : 0;
}

/** The smallest whole number that is not below the ratio. */
export function ceiling({ over, under }: Ratio): bigint {
  const down = over / under;
  return over % under > 0n ? down + 1n : down;
}

/** The nearest whole number, halves away from zero. */
export function rounded({ over, under }: Ratio): number {
  const size = over < 0n ? -over : over;
  const whole = Number((2n * size + under) / (2n * under));
  return over < 0n && whole !== 0 ? -whole : whole;
}

/** The greatest common divisor of two whole numbers, not both zero. */
export function commonDivisor(a: bigint, b: bigint): bigint {
  let [large, small] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (small !== 0n) [large, small] = [small, large % small];
  return large;
}
