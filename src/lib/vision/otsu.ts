/** A threshold that parts values into two groups, and how well: variance between the groups over all variance, 0 to 1. */
export interface Split {
  readonly threshold: number;
  readonly effectiveness: number;
}

/**
 * The threshold with the largest variance between the two groups it makes (Otsu, "A threshold selection method from gray-level
 * histograms", 1979). `counts[i]` values lie in bin i; those up to and with `threshold` are the lower group. Where neighbouring bins
 * are empty the first of the equal thresholds is taken.
 */
export function otsu(counts: ArrayLike<number>): Split {
  let [all, sum, squares] = [0, 0, 0];
  for (let i = 0; i < counts.length; i++) {
    all += counts[i]!;
    sum += i * counts[i]!;
    squares += i * i * counts[i]!;
  }
  const mean = sum / all;
  const variance = squares / all - mean * mean;
  let [below, belowSum, best, threshold] = [0, 0, -1, 0];
  for (let i = 0; i < counts.length - 1; i++) {
    below += counts[i]!;
    belowSum += i * counts[i]!;
    if (below === 0 || below === all) continue;
    const between = (belowSum - below * mean) ** 2 / (below * (all - below));
    if (between > best * (1 + 1e-12)) [best, threshold] = [between, i];
  }
  return { threshold, effectiveness: variance > 0 ? Math.max(0, best) / variance : 0 };
}
