/** Mean over a square of `2 reach + 1` pixels, smaller at the borders, by running sums: of each column, and along them. */
export function boxMean(plane: Float32Array, width: number, height: number, reach: number): Float32Array {
  const out = new Float32Array(plane.length);
  const columns = new Float64Array(width);
  for (let y = 0; y < Math.min(reach, height); y++) addRow(columns, plane, y * width);
  for (let y = 0; y < height; y++) {
    if (y + reach < height) addRow(columns, plane, (y + reach) * width);
    if (y > reach) takeRow(columns, plane, (y - reach - 1) * width);
    meanAlong(columns, out, y * width, reach, Math.min(y + reach, height - 1) - Math.max(y - reach, 0) + 1);
  }
  return out;
}

function addRow(columns: Float64Array, plane: Float32Array, start: number): void {
  for (let x = 0; x < columns.length; x++) columns[x]! += plane[start + x]!;
}

function takeRow(columns: Float64Array, plane: Float32Array, start: number): void {
  for (let x = 0; x < columns.length; x++) columns[x]! -= plane[start + x]!;
}

function meanAlong(columns: Float64Array, out: Float32Array, start: number, reach: number, rows: number): void {
  const width = columns.length;
  const whole = 1 / (rows * (2 * reach + 1));
  let sum = 0;
  for (let x = 0; x < Math.min(reach, width); x++) sum += columns[x]!;
  for (let x = 0; x < width; x++) {
    const last = x + reach;
    if (last < width) sum += columns[last]!;
    if (x > reach) sum -= columns[x - reach - 1]!;
    out[start + x] = sum * (x >= reach && last < width ? whole : 1 / (rows * (Math.min(last, width - 1) - Math.max(x - reach, 0) + 1)));
  }
}
