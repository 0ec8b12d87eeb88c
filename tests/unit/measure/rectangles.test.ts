import { withoutRectangles, type Rectangle } from '#lib/measure/rectangles.ts';
import { expect, it } from 'vitest';

const box = (x1: number, y1: number, x2: number, y2: number): Rectangle => ({ x1, y1, x2, y2 });
const WALL = box(0, 0, 60, 96);

/** Corners as text, each ring from its lowest corner on the left. */
function faces(cut: readonly Rectangle[], from = WALL): string[] {
  const ring = (corners: readonly { x: number; y: number }[]) => {
    const first = corners.reduce((best, at, i) => ((at.y - corners[best]!.y || at.x - corners[best]!.x) < 0 ? i : best), 0);
    return [...corners.slice(first), ...corners.slice(0, first)].map(({ x, y }) => `${x},${y}`).join(' ');
  };
  return withoutRectangles(from, cut).map(({ outline, holes }) => [ring(outline), ...holes.map((hole) => `- ${ring(hole)}`)].join(' '));
}

it.each<[string, Rectangle[], string[]]>([
  ['nothing cut', [], ['0,0 60,0 60,96 0,96']],
  ['a niche', [box(20, 40, 34, 54)], ['0,0 60,0 60,96 0,96 - 20,40 20,54 34,54 34,40']],
  ['a doorway', [box(10, 0, 40, 80)], ['0,0 10,0 10,80 40,80 40,0 60,0 60,96 0,96']],
  ['a doorway in the corner', [box(0, 0, 30, 80)], ['30,0 60,0 60,96 0,96 0,80 30,80']],
  ['a doorway up to the top', [box(20, 0, 50, 96)], ['0,0 20,0 20,96 0,96', '50,0 60,0 60,96 50,96']],
  [
    'a bench before a niche, over each other',
    [box(0, 0, 30, 18), box(20, 10, 40, 30)],
    ['30,0 60,0 60,96 0,96 0,18 20,18 20,30 40,30 40,10 30,10'],
  ],
  ['what reaches beyond the wall', [box(50, -5, 70, 20)], ['0,0 50,0 50,20 60,20 60,96 0,96']],
  ['parts that touch in a corner are two', [box(0, 0, 30, 48), box(30, 48, 60, 96)], ['0,48 30,48 30,96 0,96', '30,0 60,0 60,48 30,48']],
  [
    'a hole in each of two parts',
    [box(20, 0, 30, 96), box(5, 5, 8, 8), box(40, 5, 50, 8)],
    ['0,0 20,0 20,96 0,96 - 5,5 5,8 8,8 8,5', '30,0 60,0 60,96 30,96 - 40,5 40,8 50,8 50,5'],
  ],
  ['everything cut', [WALL], []],
])('%s', (_, cut, expected) => {
  expect(faces(cut)).toEqual(expected);
});
