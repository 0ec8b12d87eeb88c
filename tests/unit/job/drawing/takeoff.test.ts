import { takeoff, type Takeoff } from '#lib/job/drawing/areas.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import type { Drawing } from '#lib/record/kinds/drawing.ts';
import { expect, test } from 'vitest';
import { ALCOVE, doorway, drawn, thing } from '../../../fixtures/drawn.ts';

const NONE = { curbs: 0, benches: 0, collars: 0, outsideCorners: 0 };
const joints = (said: Partial<Takeoff['joints']>) => ({
  'floor-wall': 0,
  'wall-wall-inside': 0,
  'wall-wall-outside': 0,
  curb: 0,
  bench: 0,
  niche: 0,
  ...said,
});

/** Ten rooms, worked by hand; each sum stands as it was worked. */
// prettier-ignore
const ROOMS: readonly [what: string, drawing: Drawing, worked: object][] = [
  ['a room with a door', drawn('32; 60; 32; 60', { doorways: [doorway(3, 16, 28, 80)] }), {
    ...NONE, perimeter: 184, floor: 60 * 32, walls: [32 * 96, 60 * 96, 32 * 96, 60 * 96 - 28 * 80],
    joints: joints({ 'floor-wall': 184 - 28, 'wall-wall-inside': 4 * 96 }), insideCorners: 4,
  }],
  ['between three walls with a curb', drawn(ALCOVE), {
    ...NONE, perimeter: 184, floor: 1920, walls: [32 * 96, 60 * 96, 32 * 96, 0], curbs: 60 * (4 + 5 + 4),
    // At the curb: its foot, its two upper edges, and over it at both ends.
    joints: joints({ 'floor-wall': 124, 'wall-wall-inside': 192, curb: 60 + 2 * 60 + 2 * 13 }), insideCorners: 2 + 2, outsideCorners: 2 * 2,
  }],
  ['an L', drawn('80; 60; 30; 24@-90; 50; 36', {}, 90), {
    ...NONE, perimeter: 280, floor: 36 * 80 + 24 * 30, walls: [80, 60, 30, 24, 50, 36].map((length) => length * 90),
    joints: joints({ 'floor-wall': 280, 'wall-wall-inside': 5 * 90, 'wall-wall-outside': 90 }), insideCorners: 5, outsideCorners: 1,
  }],
  ['a neo-angle', drawn('36; 36; 18@45; 25.4558 curb 4 5@45; 18'), {
    ...NONE, perimeter: 36 + 36 + 18 + 25.4558 + 18, floor: 36 * 36 - (18 * 18) / 2, walls: [36 * 96, 36 * 96, 18 * 96, 0, 18 * 96], curbs: 25.4558 * 13,
    joints: joints({ 'floor-wall': 108, 'wall-wall-inside': 3 * 96, curb: 3 * 25.4558 + 2 * 13 }), insideCorners: 3 + 2, outsideCorners: 4,
  }],
  ['with a niche, a valve and a shower arm', drawn(ALCOVE, { things: [
    thing('niche', 1, [24, null, 48, 12, 24, 3.5]), thing('valve', 0, [16, null, 48]), thing('pipe', 0, [16, null, 78]), thing('drain', 3, [30, 16, null, 6]),
  ] }), {
    ...NONE, perimeter: 184, floor: 1920, walls: [32 * 96, 60 * 96 + 2 * (12 + 24) * 3.5, 32 * 96, 0], curbs: 780,
    // Around its face, around its back, and in at its four corners.
    joints: joints({ 'floor-wall': 124, 'wall-wall-inside': 192, curb: 206, niche: 72 + 72 + 4 * 3.5 }), insideCorners: 4 + 4, outsideCorners: 4 + 4, collars: 2,
  }],
  ['with a bench from wall to wall', drawn(ALCOVE, { things: [thing('bench', 1, [0, null, null, 60, 18, 15])] }), {
    ...NONE, perimeter: 184, floor: 1920 - 60 * 15, walls: [32 * 96, 60 * 96 - 60 * 18, 32 * 96, 0], curbs: 780,
    // Seat and front, less what its ends hide of the side walls.
    benches: 60 * 15 + 60 * 18 - 2 * 15 * 18,
    // On the side walls the floor's joint ends at the bench, whose seat and front go on there.
    joints: joints({ 'floor-wall': 17 + 17, 'wall-wall-inside': 2 * (96 - 18), curb: 206, bench: 60 + 60 + 60 + 2 * (15 + 18) }),
    insideCorners: 2 + 4, outsideCorners: 4 + 2,
  }],
  ['with a bench that stands free at both ends', drawn('60; 60; 60; 60', { things: [thing('bench', 1, [18, null, null, 24, 18, 12])] }), {
    ...NONE, perimeter: 240, floor: 3600 - 24 * 12, walls: [5760, 5760 - 24 * 18, 5760, 5760], benches: 24 * 12 + 24 * 18 + 2 * 12 * 18,
    joints: joints({ 'floor-wall': 240 - 24, 'wall-wall-inside': 384, bench: 24 + 24 + 24 + 2 * (18 + 12 + 12 + 18) }),
    insideCorners: 4 + 2, outsideCorners: 6,
  }],
  ['open on one side', drawn('40; 60; 40; 60 open'), {
    ...NONE, perimeter: 200, floor: 2400, walls: [3840, 5760, 3840, 0], joints: joints({ 'floor-wall': 140, 'wall-wall-inside': 192 }), insideCorners: 2,
  }],
  ['with a low wall', drawn('36; 60; 36 low 42; 60 curb 4 5'), {
    ...NONE, perimeter: 192, floor: 2160, walls: [36 * 96, 60 * 96, 36 * 42, 0], curbs: 780,
    joints: joints({ 'floor-wall': 132, 'wall-wall-inside': 96 + 42, curb: 206 }), insideCorners: 4, outsideCorners: 4,
  }],
  ['in millimetres, with a toilet and a pipe in the floor', drawn('900; 1500; 900; 1500', {
    doorways: [doorway(3, 100, 700, undefined, 'mm')], things: [thing('toilet-flange', 1, [400, 305, null, 180], 'mm'), thing('floor-pipe', 2, [100, 100], 'mm')],
  }, 2400, 'mm'), {
    ...NONE, perimeter: 4800, floor: 1500 * 900, walls: [900 * 2400, 1500 * 2400, 900 * 2400, 800 * 2400],
    joints: joints({ 'floor-wall': 4100, 'wall-wall-inside': 9600 }), insideCorners: 4, collars: 2,
  }],
];

test.each(ROOMS)('%s: areas, joints, corners and collars as worked by hand', (_, drawing, worked) => {
  const shape = shapeOf(drawing);
  if (!shape.ok) throw new Error(JSON.stringify(shape.fault));
  const rounded = (value: unknown): unknown =>
    typeof value === 'number'
      ? Number(value.toFixed(2))
      : Array.isArray(value)
        ? value.map(rounded)
        : Object.fromEntries(Object.entries(value as object).map(([key, one]) => [key, rounded(one)]));
  expect(rounded(takeoff(shape.value))).toEqual(rounded(worked));
});

test.each<[what: string, drawing: Drawing, fault: object]>([
  ['it does not close', drawn('32; 60; 32; 59'), { list: 'walls', at: 3, code: 'not-closed' }],
  ['it was walked the other way', drawn('60@-90; 32@-90; 60@-90; 32'), { list: 'walls', at: 0, code: 'other-way' }],
  ['walls cross', drawn('40; 40; 20; 60@-90; 20@-90; 20'), { list: 'walls', at: 0, code: 'self-crossing' }],
  ['a wall of nothing', drawn('32; 0; 32; 0'), { list: 'walls', at: 1, code: 'zero-wall' }],
  [
    'a doorway longer than its wall',
    drawn('32; 60; 32; 60', { doorways: [doorway(0, 10, 30)] }),
    { list: 'doorways', at: 0, code: 'beyond-wall' },
  ],
  ['a doorway in no wall', drawn('32; 60; 32; 60', { doorways: [doorway(4, 1, 30)] }), { list: 'doorways', at: 0, code: 'no-such-wall' }],
  [
    'a doorway above its wall',
    drawn('32; 60; 32; 60', { doorways: [doorway(1, 1, 30, 97)] }),
    { list: 'doorways', at: 0, code: 'above-wall' },
  ],
  ['a drain outside', drawn(ALCOVE, { things: [thing('drain', 1, [30, 33, null, 6])] }), { list: 'things', at: 0, code: 'outside-floor' }],
  [
    'a niche above the wall',
    drawn(ALCOVE, { things: [thing('niche', 1, [24, null, 80, 12, 24, 3])] }),
    { list: 'things', at: 0, code: 'above-wall' },
  ],
  ['a mass for a length', drawn(ALCOVE, { height: { text: '9', value: '9', unit: 'kg' } }), { list: 'walls', at: 0, code: 'not-a-length' }],
  [
    'benches in one place',
    drawn(ALCOVE, { things: [thing('bench', 1, [0, null, null, 30, 18, 15]), thing('bench', 0, [17, null, null, 15, 18, 15])] }),
    { list: 'things', at: 1, code: 'benches-meet' },
  ],
])('%s: said, not drawn', (_, drawing, fault) => {
  expect(shapeOf(drawing)).toEqual({ ok: false, fault });
});
