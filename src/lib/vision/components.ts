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
  const parent: number[] = [0];
  const root = (label: number): number => {
    let top = label;
    while (parent[top]! !== top) {
      parent[top] = parent[parent[top]!]!;
      top = parent[top]!;
    }
    return top;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const at = y * width + x;
      if (data[at] === 0) continue;
      let label = 0;
      const join = (other: number) => {
        if (other === 0) return;
        const [a, b] = label === 0 ? [other, other] : [root(label), root(other)];
        label = Math.min(a, b);
        if (a !== b) parent[Math.max(a, b)] = label;
      };
      if (x > 0) join(labels[at - 1]!);
      if (y > 0) {
        join(labels[at - width]!);
        if (neighbours === 8 && x > 0) join(labels[at - width - 1]!);
        if (neighbours === 8 && x < width - 1) join(labels[at - width + 1]!);
      }
      if (label === 0) {
        label = parent.length;
        parent.push(label);
      }
      labels[at] = label;
    }
  }
  const numbers = new Int32Array(parent.length);
  let count = 0;
  for (let label = 1; label < parent.length; label++) numbers[label] = root(label) === label ? ++count : numbers[root(label)]!;
  for (let at = 0; at < labels.length; at++) labels[at] = numbers[labels[at]!]!;
  return { labels, count };
}
