import flatten from '@flatten-js/core';
import fc from 'fast-check';
import perspective from 'perspective-transform';
import { expect, test } from 'vitest';
import { distanceTo, distanceToArea, nearestOn, type Corners } from '#lib/job/drawing/marks.ts';
import { placeIn, type Point } from '#lib/measure/plane.ts';
import { fitHomography, invertHomography, project } from '#lib/vision/homography.ts';
import type { Quad } from '#lib/vision/raster.ts';
import { straightPart } from '#lib/vision/register.ts';

/** Distances, containment and rectification as two libraries by others have them: @flatten-js/core and perspective-transform. */
const { point, segment, Polygon } = flatten;

/** A room up to 30 ft, in ten-thousandths of an inch. */
const coordinate = fc.integer({ min: -3_600_000, max: 3_600_000 });
const place = fc.record({ x: coordinate, y: coordinate });
const at = ({ x, y }: Point) => point(x, y);

test('the distance to a line and its nearest point', () => {
  fc.assert(
    fc.property(place, place, place, (a, b, p) => {
      fc.pre(a.x !== b.x || a.y !== b.y);
      const [far, { end }] = at(p).distanceTo(segment(at(a), at(b)));
      expect(distanceTo(a, b, p)).toBeCloseTo(far, 3);
      const to = nearestOn(a, b, p);
      expect(Math.hypot(to.x - end.x, to.y - end.y)).toBeLessThan(1e-3);
    }),
  );
});

/** Four corners in order around a middle, each in its own quarter: convex or not, and never crossing itself. */
const off = fc.integer({ min: 1_000, max: 900_000 });
const beside = fc.tuple(off, off);
const corners = fc.tuple(place, beside, beside, beside, beside).map(([{ x, y }, a, b, c, d]): Corners<Point> => [
  { x: x - a[0], y: y + a[1] },
  { x: x + b[0], y: y + b[1] },
  { x: x + c[0], y: y - c[1] },
  { x: x - d[0], y: y - d[1] },
]);

test('whether an area holds a place, and how far it lies else', () => {
  fc.assert(
    fc.property(
      corners,
      fc.tuple(fc.integer({ min: -1_200_000, max: 1_200_000 }), fc.integer({ min: -1_200_000, max: 1_200_000 })),
      (area, off) => {
        const p = { x: area[0].x + off[0], y: area[0].y + off[1] };
        const polygon = new Polygon(area.map(({ x, y }): [number, number] => [x, y]));
        // On the outline within a hair the other library decides by a tolerance, ours exactly.
        const onEdge = Math.min(...area.map((one, i) => distanceTo(one, area[(i + 1) % 4]!, p)));
        fc.pre(onEdge > 1);
        const holds = polygon.contains(at(p));
        expect(placeIn(area, p) === 1).toBe(holds);
        const away = distanceToArea({ corners: area, inPhoto: null }, p);
        if (holds) expect(away).toBe(0);
        else expect(away).toBeCloseTo(at(p).distanceTo(polygon)[0], 3);
      },
    ),
  );
});

/** A rectangle of a wall in mm, and its corners in a photo, each moved up to a tenth of the picture. */
const seen = fc.tuple(
  fc.record({ width: fc.integer({ min: 200, max: 3_000 }), height: fc.integer({ min: 200, max: 3_000 }) }),
  fc.array(fc.integer({ min: -120, max: 120 }), { minLength: 8, maxLength: 8 }),
);

test('where a place of the plane lies in the photo, and back', () => {
  fc.assert(
    fc.property(
      seen,
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      ({ 0: size, 1: off }, s, t) => {
        const plane: Quad = [[0, 0], [size.width, 0], [size.width, size.height], [0, size.height]]; // prettier-ignore
        const photo = [[200, 160], [1080, 160], [1080, 800], [200, 800]].map(([x, y], i) => [x! + off[2 * i]!, y! + off[2 * i + 1]!]) as unknown as Quad; // prettier-ignore
        const theirs = perspective(plane.flat(), photo.flat());
        const ours = fitHomography(plane, photo)!;
        const [x, y] = [s * size.width, t * size.height];
        const [u, v] = project(ours, [x, y]);
        const [theirU, theirV] = theirs.transform(x, y);
        expect(Math.hypot(u - theirU, v - theirV)).toBeLessThan(1e-3);
        const [backX, backY] = theirs.transformInverse(u, v);
        const [ourX, ourY] = project(invertHomography(ours), [u, v]);
        expect(Math.hypot(ourX - backX, ourY - backY)).toBeLessThan(0.02);
      },
    ),
  );
});

test('a part laid straight holds what the other library finds there; what the photo does not show is clear', () => {
  // Red grows with x and green with y: a pixel tells its place.
  const [width, height] = [256, 192];
  const rgba = new Uint8ClampedArray(4 * width * height);
  for (let y = 0, i = 0; y < height; y++) for (let x = 0; x < width; x++, i += 4) rgba.set([x, y, 0, 255], i);
  const onPlane: Quad = [[0, -600], [800, -600], [800, 0], [0, 0]]; // prettier-ignore
  const inPhoto: Quad = [[30, 25], [235, 40], [220, 180], [45, 160]]; // prettier-ignore
  const theirs = perspective(onPlane.flat(), inPhoto.flat());
  for (const spot of [
    [400, -300],
    [120, -500],
    [700, -90],
  ] as const) {
    const part = { xMm: spot[0] - 40, yMm: spot[1] - 30, widthMm: 80, heightMm: 60 };
    const straight = straightPart({ width, height, rgba }, { onPlane, inPhoto }, part)!;
    expect([straight.width, straight.height]).toEqual([160, 120]);
    const middle = 4 * (60 * 160 + 80);
    const [u, v] = theirs.transform(spot[0], spot[1]);
    // The first pixel's middle lies at 0.5.
    expect(Math.abs(straight.rgba[middle]! - (u - 0.5))).toBeLessThan(1.5);
    expect(Math.abs(straight.rgba[middle + 1]! - (v - 0.5))).toBeLessThan(1.5);
    expect(straight.rgba[middle + 3]).toBe(255);
  }
  const beside = straightPart({ width, height, rgba }, { onPlane, inPhoto }, { xMm: 3_000, yMm: -300, widthMm: 40, heightMm: 30 })!;
  expect(beside.rgba.every((value, i) => i % 4 !== 3 || value === 0)).toBe(true);
  expect(straightPart({ width, height, rgba }, { onPlane, inPhoto: [[0, 0], [9, 9], [9, 0], [0, 9]] }, { xMm: 0, yMm: 0, widthMm: 9, heightMm: 9 })).toBeNull(); // prettier-ignore
});
