import type { Step } from './edges.ts';

/** How far a tapped side is off its edge, as a standard deviation in pixels, when several edges could be meant. */
const TAP_OFF_PX = 5;
/** Tolerance of a straight edge in pixels, lens curve included, and the least share of profiles that must show it. */
const STRAIGHT_PX = 1.5;
const SHOWN_MIN = 0.6;
/** A second edge with this share of the first one's strength makes the choice unsure. */
const RIVAL = 0.5;

/** The steps of one straight edge, one a profile: the line through most light, all of one sign. Null when there is none or a rival. */
export function straightest(profiles: readonly (readonly Step[])[]): Step[] | null {
  const lines: { steps: Step[]; strength: number; middle: number }[] = [];
  const last = profiles.length - 1;
  for (const [i, j] of [
    [0.1, 0.9],
    [0.05, 0.7],
    [0.3, 0.95],
    [0.2, 0.8],
    [0.15, 0.6],
    [0.4, 0.85],
  ].map((pair) => pair.map((share) => Math.round(share * last)))) {
    for (const a of profiles[i!]!) {
      for (const b of profiles[j!]!) {
        if (a.rise * b.rise < 0) continue;
        const steps = profiles.flatMap((choices, at) => {
          const expected = a.offset + ((b.offset - a.offset) * (at - i!)) / (j! - i!);
          return choices.find(({ offset, rise }) => rise * a.rise > 0 && Math.abs(offset - expected) < 2 * STRAIGHT_PX) ?? [];
        });
        const light = steps.reduce((sum, { rise }) => sum + Math.min(Math.abs(rise), 2 * Math.abs(a.rise)), 0);
        const strength = light * Math.exp(-(a.offset ** 2 + b.offset ** 2) / (4 * TAP_OFF_PX ** 2));
        lines.push({ steps, strength, middle: (a.offset + b.offset) / 2 });
      }
    }
  }
  lines.sort((a, b) => b.strength - a.strength);
  const [best] = lines;
  if (best === undefined || best.steps.length < SHOWN_MIN * profiles.length) return null;
  const middle = middleOf(best.steps.map(({ offset }) => offset));
  const rival = lines.some((line) => {
    const other = middleOf(line.steps.map(({ offset }) => offset));
    return (
      Math.abs(other - middle) > 2 * STRAIGHT_PX && line.strength > RIVAL * best.strength && line.steps.length > SHOWN_MIN * profiles.length
    );
  });
  return rival ? null : best.steps;
}

/** The value in the middle of the list, 0 of none. */
export function middleOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}
