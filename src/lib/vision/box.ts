/** Mean over a square of `2 reach + 1` pixels, smaller at the borders, by running sums: of each column, and along them. */
export function boxMean(plane: Float32Array, width: number, height: number, reach: number): Float32Array {
  const out = new Float32Array(plane.length);
  const columns = new Float64Array(width);
  for (let y = 0; y < Math.min(reach, height); y++) addRow(columns, plane, y * width);
  for (let y = 0; y < height; y++) {
    const [enters, leaves] = [y + reach < height, y > reach];
    if (enters && leaves) moveDown(columns, plane, (y + reach) * width, (y - reach - 1) * width);
    else if (enters) addRow(columns, plane, (y + reach) * width);
    else if (leaves) takeRow(columns, plane, (y - reach - 1) * width);
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

/** Both at once: each column is read and written once. */
function moveDown(columns: Float64Array, plane: Float32Array, enters: number, leaves: number): void {
  for (let x = 0; x < columns.length; x++) columns[x]! += plane[enters + x]! - plane[leaves + x]!;
}

function meanAlong(columns: Float64Array, out: Float32Array, start: number, reach: number, rows: number): void {
  const width = columns.length;
  const whole = 1 / (rows * (2 * reach + 1));
  const [from, to] = [Math.min(reach + 1, width), Math.max(Math.min(reach + 1, width), width - reach)];
  let sum = 0;
  for (let x = 0; x < Math.min(reach, width); x++) sum += columns[x]!;
  sum = meanAtBorder(columns, out, start, reach, rows, sum, 0, from);
  // Most pixels: the next sum waits for one addition only.
  for (let x = from; x < to; x++) {
    sum += columns[x + reach]! - columns[x - reach - 1]!;
    out[start + x] = sum * whole;
  }
  meanAtBorder(columns, out, start, reach, rows, sum, to, width);
}

/** Where the box reaches over the border; the sum is given and handed back, as one that two functions share is slow. */
function meanAtBorder(
  columns: Float64Array,
  out: Float32Array,
  start: number,
  reach: number,
  rows: number,
  sumBefore: number,
  from: number,
  to: number,
): number {
  const width = columns.length;
  let sum = sumBefore;
  for (let x = from; x < to; x++) {
    if (x + reach < width) sum += columns[x + reach]!;
    if (x > reach) sum -= columns[x - reach - 1]!;
    out[start + x] = sum / (rows * (Math.min(x + reach, width - 1) - Math.max(x - reach, 0) + 1));
  }
  return sum;
}
