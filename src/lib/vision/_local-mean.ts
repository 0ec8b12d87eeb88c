import { boxMean } from './box.ts';

/** Side of a cell in which the mean is gathered, in mm: light changes slowly. */
const CELL_MM = 2;
/** Of a box's cells' pixels fewer than this on the mean are none. */
const FEWEST = 1e-3;

export interface LocalMean {
  readonly planes: readonly Float32Array[];
  /** 1 where some of them are near, 0 where it is `otherwise`; null where some are near everywhere. */
  readonly near: Uint8Array | null;
}

/**
 * For each pixel the mean of each plane over the pixels that `take` names around it (a box of `reachMm` to each side, twice), `otherwise`
 * where there are none. Gathered in cells and read between them.
 */
export function localMean(
  { width, height, planes }: { readonly width: number; readonly height: number; readonly planes: readonly Float32Array[] },
  take: Uint8Array,
  otherwise: readonly number[],
  reachMm: number,
  pxPerMm: number,
): LocalMean {
  const cell = Math.max(1, Math.round(CELL_MM * pxPerMm));
  const [columns, rows] = [Math.ceil(width / cell), Math.ceil(height / cell)];
  const reach = Math.max(1, Math.round((reachMm * pxPerMm) / cell));
  const smooth = (plane: Float32Array) => boxMean(boxMean(plane, columns, rows, reach), columns, rows, reach);
  const gather = (value: (at: number) => number) => {
    const cells = new Float32Array(columns * rows);
    for (let y = 0, at = 0; y < height; y++) {
      const row = Math.floor(y / cell) * columns;
      for (let x = 0; x < width; x++, at++) if (take[at] === 1) cells[row + Math.floor(x / cell)]! += value(at);
    }
    return smooth(cells);
  };
  const counts = gather(() => 1);
  const means = planes.map((plane, i) => {
    const sums = gather((at) => plane[at]!);
    const cells = sums.map((sum, at) => (counts[at]! > FEWEST ? sum / counts[at]! : otherwise[i]!));
    return spreadOut(cells, columns, rows, cell, width, height);
  });
  if (counts.every((count) => count > FEWEST)) return { planes: means, near: null };
  const near = new Uint8Array(width * height);
  for (let y = 0, at = 0; y < height; y++) {
    const row = Math.floor(y / cell) * columns;
    for (let x = 0; x < width; x++, at++) near[at] = counts[row + Math.floor(x / cell)]! > FEWEST ? 1 : 0;
  }
  return { planes: means, near };
}

/** Bilinear between the middles of cells. */
function spreadOut(cells: Float32Array, columns: number, rows: number, cell: number, width: number, height: number): Float32Array {
  const out = new Float32Array(width * height);
  for (let y = 0, at = 0; y < height; y++) {
    const v = Math.min(Math.max((y + 0.5) / cell - 0.5, 0), rows - 1);
    const top = Math.min(Math.floor(v), Math.max(0, rows - 2));
    const below = Math.min(top + 1, rows - 1);
    const fy = v - top;
    for (let x = 0; x < width; x++, at++) {
      const u = Math.min(Math.max((x + 0.5) / cell - 0.5, 0), columns - 1);
      const left = Math.min(Math.floor(u), Math.max(0, columns - 2));
      const right = Math.min(left + 1, columns - 1);
      const fx = u - left;
      const upper = cells[top * columns + left]! * (1 - fx) + cells[top * columns + right]! * fx;
      const lower = cells[below * columns + left]! * (1 - fx) + cells[below * columns + right]! * fx;
      out[at] = upper * (1 - fy) + lower * fy;
    }
  }
  return out;
}
