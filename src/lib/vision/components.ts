/** A picture of yes and no: one byte a pixel, 0 is no. */
export interface Mask {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** For each pixel the number of its component from 1, 0 where the mask says no. */
export interface Components {
  readonly labels: Int32Array;
  readonly count: number;
}

/**
 * Connected components, numbered in the order of their first pixel. Two passes with a forest of equal labels; `neighbours` 4 joins
 * sides only, 8 corners too.
 */
export function labelComponents({ width, height, data }: Mask, neighbours: 4 | 8): Components {
  const labels = new Int32Array(width * height);
  // A new label starts where no pixel before it touches: at most every other pixel of a row does.
  const parent = new Int32Array(Math.ceil(width / 2) * height + 1);
  let last = 0;
  // Row by row in a function of its own, which is compiled after a few rows and not after the first picture.
  for (let y = 0; y < height; y++) last = labelRow(labels, data, parent, width, y, neighbours === 8, last);
  const numbers = new Int32Array(last + 1);
  let count = 0;
  for (let label = 1; label <= last; label++) {
    const root = rootOf(parent, label);
    numbers[label] = root === label ? ++count : numbers[root]!;
  }
  for (let y = 0; y < height; y++) numberRow(labels, numbers, y * width, width);
  return { labels, count };
}

/** Labels one row, the rows above being labelled; returns the last label given. */
function labelRow(
  labels: Int32Array,
  data: Uint8Array,
  parent: Int32Array,
  width: number,
  y: number,
  corners: boolean,
  lastBefore: number,
): number {
  let last = lastBefore;
  for (let x = 0, at = y * width; x < width; x++, at++) {
    if (data[at] === 0) continue;
    let label = x > 0 ? labels[at - 1]! : 0;
    if (y > 0) {
      const above = labels[at - width]!;
      // What is above touches both of its sides: they are one already.
      if (above !== 0) label = joined(parent, label, above);
      else if (corners) {
        if (x > 0 && labels[at - width - 1]! !== 0) label = joined(parent, label, labels[at - width - 1]!);
        if (x < width - 1 && labels[at - width + 1]! !== 0) label = joined(parent, label, labels[at - width + 1]!);
      }
    }
    if (label === 0) {
      label = ++last;
      parent[label] = label;
    }
    labels[at] = label;
  }
  return last;
}

function numberRow(labels: Int32Array, numbers: Int32Array, start: number, width: number): void {
  for (let at = start; at < start + width; at++) labels[at] = numbers[labels[at]!]!;
}

/** Makes both labels one; 0 is none. The lowest is the root, so that numbers go in the order of first pixels. */
function joined(parent: Int32Array, one: number, other: number): number {
  if (one === 0 || one === other) return other;
  const a = rootOf(parent, one);
  const b = rootOf(parent, other);
  if (a < b) {
    parent[b] = a;
    return a;
  }
  parent[a] = b;
  return b;
}

function rootOf(parent: Int32Array, label: number): number {
  let top = label;
  while (parent[top]! !== top) {
    parent[top] = parent[parent[top]!]!;
    top = parent[top]!;
  }
  return top;
}
