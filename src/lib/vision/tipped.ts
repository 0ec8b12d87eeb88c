import { invertHomography } from './homography.ts';
import { homographyOf, originOf, toPlane, type View } from './plane.ts';
import type { Segment } from './length.ts';
import { distance, type Point } from './raster.ts';

/** A reference tipped by more than this would be noticed: the far side of the card stands three to five centimetres off (common practice, no source). */
export const UNNOTICED_DEG = 20;

/** Focal lengths of phones' main cameras, in those that a view assumes. */
const FOCALS = [0.93, 1.13];
const DIRECTIONS = 24;
/** The length need not grow all the way with the tip. */
const TIPS_DEG = [UNNOTICED_DEG / 2, UNNOTICED_DEG];

/**
 * The least and the greatest length in mm of one segment of a photo, on every surface that the reference touches with a corner and is
 * tipped out of by up to `UNNOTICED_DEG`, about any line. To the reference each of them is as good a view as the true one.
 */
export function lengthsIfTipped(
  view: View,
  { width, height }: { readonly width: number; readonly height: number },
  { from, to }: Segment,
): { readonly leastMm: number; readonly mostMm: number } {
  const corners: Point[] = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ];
  const ends = [toPlane(view, from), toPlane(view, to)] as const;
  const lengthsMm = [distance(...ends)];
  for (const camera of FOCALS.map((focal) => cameraOf(view, focal)))
    for (const slope of TIPS_DEG.map((tip) => Math.tan((tip * Math.PI) / 180)))
      for (let i = 0; i < DIRECTIONS; i++) {
        const rises = directionOf((2 * Math.PI * i) / DIRECTIONS);
        const touches = Math.min(...corners.map((corner) => along(corner, rises)));
        const [a, b] = [onSurface(camera, ends[0], rises, touches, slope), onSurface(camera, ends[1], rises, touches, slope)];
        lengthsMm.push(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]));
      }
  return { leastMm: Math.min(...lengthsMm), mostMm: Math.max(...lengthsMm) };
}

type Place = readonly [x: number, y: number, z: number];

function directionOf(angle: number): Point {
  return [Math.cos(angle), Math.sin(angle)];
}

function along([x, y]: Point | Place, [dx, dy]: Point): number {
  return x * dx + y * dy;
}

/**
 * Where the line from the camera through a point of the reference's plane (z = 0, the camera at z > 0) meets a surface that falls away
 * below the reference, by `slope` a millimetre in the direction in which that rises, from where it touches.
 */
function onSurface(camera: Place, end: Point, rises: Point, touches: number, slope: number): Place {
  const overCamera = camera[2] + slope * (along(camera, rises) - touches);
  const overEnd = slope * (along(end, rises) - touches);
  const part = overCamera / (overCamera - overEnd);
  return [camera[0] + part * (end[0] - camera[0]), camera[1] + part * (end[1] - camera[1]), camera[2] * (1 - part)];
}

/**
 * The camera's place in the coordinates of the plane, in mm, if its focal length is `focal` of what the view assumes. The columns of the map from the plane to the camera's coordinates are two
 * directions of one length, square to each other, and the plane's origin (Zhang 2000, "A flexible new technique for camera calibration",
 * section 3.1).
 */
function cameraOf(view: View, focal: number): Place {
  const [ox, oy] = originOf(view);
  const [a, b, c, d, e, f, g, h, i] = invertHomography(homographyOf(view));
  const column = (x: number, y: number, z: number): Place => [x + ox * z, y + oy * z, focal * z];
  const [right, down, origin] = [column(a, d, g), column(b, e, h), column(c, f, i)];
  const scale = Math.hypot(...right) * Math.hypot(...down);
  const dot = (one: Place, other: Place) => (one[0] * other[0] + one[1] * other[1] + one[2] * other[2]) / scale;
  const normal: Place = [
    right[1] * down[2] - right[2] * down[1],
    right[2] * down[0] - right[0] * down[2],
    right[0] * down[1] - right[1] * down[0],
  ];
  return [-dot(right, origin), -dot(down, origin), Math.abs(dot(normal, origin)) / Math.sqrt(scale)];
}
