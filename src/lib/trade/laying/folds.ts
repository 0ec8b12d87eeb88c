/** A stretch of a piece, along its strip. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * A piece in `count` stretches of equal length, from low to high, each fold on the nearest whole gauge of the drawing. Null where it is too
 * short to be folded so often.
 */
export function equalStretches(piece: Span, count: number, gauge: number): Span[] | null {
  const { from, to } = piece;
  const folds = Array.from({ length: count - 1 }, (_, i) => Math.round((from + ((to - from) * (i + 1)) / count) / gauge) * gauge);
  return stretchesAt(piece, folds);
}

/** A piece folded at given places, ascending; null where one of them is not inside it. */
export function stretchesAt({ from, to }: Span, folds: readonly number[]): Span[] | null {
  const ends = [from, ...folds, to];
  const stretches = folds.map((fold, i) => ({ from: ends[i]!, to: fold }));
  return [...stretches, { from: ends.at(-2)!, to }].every((span) => span.from < span.to)
    ? [...stretches, { from: ends.at(-2)!, to }]
    : null;
}
