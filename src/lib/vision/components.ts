/** A picture of yes and no: one byte a pixel, 0 is no, 1 is yes. */
export interface Mask {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/**
 * A mask cut along its rows into runs of equal pixels, and which of them hang together. No picture of numbers is made: it would take
 * four bytes a pixel, and fresh memory costs more time than all the rest.
 */
export interface Runs {
  readonly count: number;
  /** Index of the first pixel of each run, in order, and where the last one ends; with every row a run begins. */
  readonly starts: Int32Array;
  /** For each run the first run of its component. */
  readonly firsts: Int32Array;
}

/**
 * Both what the mask says yes to and what it says no to, in connected components: `neighbours` 4 joins the sides of yes only, 8 its
 * corners too; no is joined the other way, so that nothing crosses.
 */
export function connectedRuns({ width, height, data }: Mask, neighbours: 4 | 8): Runs {
  let starts = new Int32Array(4 * width + 1);
  let parent = new Int32Array(4 * width);
  const corners = neighbours === 8 ? 1 : 0;
  let [above, row] = [0, 0];
  for (let y = 0; y < height; y++) {
    if (row + width > parent.length) [starts, parent] = [twice(starts), twice(parent)];
    const next = cutRow(data, starts, row, y * width, width);
    for (let run = row; run < next; run++) parent[run] = run;
    if (y > 0) joinRows(data, starts, parent, above, row, width, corners);
    [above, row] = [row, next];
  }
  for (let run = 0; run < row; run++) parent[run] = parent[parent[run]!]!;
  return { count: row, starts, firsts: parent };
}

function twice(list: Int32Array): Int32Array<ArrayBuffer> {
  const longer = new Int32Array(2 * list.length);
  longer.set(list);
  return longer;
}

/** Writes the starts of one row's runs, and of what follows; the number of the run that follows. */
function cutRow(data: Uint8Array, starts: Int32Array, first: number, from: number, width: number): number {
  let run = first;
  starts[run] = from;
  for (let at = from + 1; at < from + width; at++) if (data[at] !== data[at - 1]) starts[++run] = at;
  starts[++run] = from + width;
  return run;
}

/** Joins the runs of a row to those of the row above, of which `above` is the first: whichever of two ends first gives way to the next. */
function joinRows(
  data: Uint8Array,
  starts: Int32Array,
  parent: Int32Array,
  above: number,
  row: number,
  width: number,
  corners: number,
): void {
  let [up, down] = [above, row];
  let [yesUp, yesDown] = [data[starts[up]!]!, data[starts[down]!]!];
  for (;;) {
    if (yesUp === yesDown) join(parent, up, down);
    const ahead = starts[up + 1]! + width - starts[down + 1]!;
    if (ahead === 0) {
      if (up + 1 === row) return;
      // Four pixels meet at a corner: one of the two that lie across from each other goes with its like.
      if (yesUp !== yesDown) {
        if (yesDown === corners) join(parent, up + 1, down);
        else join(parent, up, down + 1);
      }
    }
    if (ahead <= 0) {
      up++;
      yesUp = 1 - yesUp;
    }
    if (ahead >= 0) {
      down++;
      yesDown = 1 - yesDown;
    }
  }
}

/** Makes both one; the lowest is the root, so that it is the first run. */
function join(parent: Int32Array, one: number, other: number): void {
  const a = rootOf(parent, one);
  const b = rootOf(parent, other);
  if (a < b) parent[b] = a;
  else parent[a] = b;
}

function rootOf(parent: Int32Array, run: number): number {
  let top = run;
  while (parent[top]! !== top) {
    parent[top] = parent[parent[top]!]!;
    top = parent[top]!;
  }
  return top;
}
