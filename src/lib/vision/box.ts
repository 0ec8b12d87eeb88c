/** Mean over a square of `2 reach + 1` pixels, smaller at the borders, by running sums. */
export function boxMean(plane: Float32Array, width: number, height: number, reach: number): Float32Array {
  const across = new Float32Array(plane.length);
  for (let y = 0; y < height; y++) runningMean(plane, across, y * width, 1, width, reach);
  const out = new Float32Array(plane.length);
  for (let x = 0; x < width; x++) runningMean(across, out, x, width, height, reach);
  return out;
}

function runningMean(from: Float32Array, to: Float32Array, start: number, step: number, length: number, reach: number): void {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < Math.min(reach, length); i++) {
    sum += from[start + i * step]!;
    count++;
  }
  for (let i = 0; i < length; i++) {
    if (i + reach < length) {
      sum += from[start + (i + reach) * step]!;
      count++;
    }
    if (i - reach - 1 >= 0) {
      sum -= from[start + (i - reach - 1) * step]!;
      count--;
    }
    to[start + i * step] = sum / count;
  }
}
