/** A matrix, row by row. */
export type Matrix = readonly (readonly number[])[];

/** Solves `a x = b` by elimination with partial pivots. Null when `a` is singular to within rounding. */
export function solve(a: Matrix, b: readonly number[]): number[] | null {
  const columns = solveAll(
    a,
    b.map((value) => [value]),
  );
  return columns?.map((row) => row[0]!) ?? null;
}

export function invert(a: Matrix): Matrix | null {
  return solveAll(
    a,
    a.map((_, i) => a.map((__, j) => (i === j ? 1 : 0))),
  );
}

function solveAll(a: Matrix, b: Matrix): number[][] | null {
  const n = a.length;
  const rows = a.map((row, i) => [...row, ...b[i]!]);
  const width = n + b[0]!.length;
  const largest = Math.max(...a.flat().map(Math.abs));
  for (let step = 0; step < n; step++) {
    let pivot = step;
    for (let i = step + 1; i < n; i++) if (Math.abs(rows[i]![step]!) > Math.abs(rows[pivot]![step]!)) pivot = i;
    [rows[step], rows[pivot]] = [rows[pivot]!, rows[step]!];
    const top = rows[step]!;
    if (!(Math.abs(top[step]!) > 1e-14 * largest)) return null;
    for (let i = 0; i < n; i++) {
      const row = rows[i]!;
      const factor = i === step ? 0 : row[step]! / top[step]!;
      if (factor !== 0) for (let j = step; j < width; j++) row[j]! -= factor * top[j]!;
    }
  }
  return rows.map((row, i) => row.slice(n).map((value) => value / row[i]!));
}
