/** A camera of our own for photos whose truth is known: a pinhole with a lens term, above a surface that is the plane z = 0 in mm. */
export type Vec = readonly [number, number, number];

export interface Camera {
  readonly width: number;
  readonly height: number;
  readonly focalPx: number;
  /** Seen radius = r (1 + k1 r^2), r in focal lengths. */
  readonly k1: number;
  readonly at: Vec;
  readonly right: Vec;
  readonly down: Vec;
  readonly forward: Vec;
}

export const add = (a: Vec, b: Vec, by = 1): Vec => [a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2]];
export const dot = (a: Vec, b: Vec) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec, b: Vec): Vec => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const unit = (a: Vec): Vec => {
  const length = Math.hypot(...a);
  return [a[0] / length, a[1] / length, a[2] / length];
};

/** Looks at a point of the surface from a distance, tilted away from straight above toward an azimuth, turned by a roll; radians. */
export function cameraAt(
  size: { width: number; height: number; focalPx: number; k1: number },
  view: { lookAt: readonly [number, number]; distanceMm: number; tilt: number; azimuth: number; roll: number },
): Camera {
  const { tilt, azimuth, roll } = view;
  const away: Vec = [Math.sin(tilt) * Math.cos(azimuth), Math.sin(tilt) * Math.sin(azimuth), -Math.cos(tilt)];
  const at: Vec = add([...view.lookAt, 0], away, view.distanceMm);
  const forward: Vec = [-away[0], -away[1], -away[2]];
  const some: Vec = [Math.cos(roll), Math.sin(roll), 0];
  const right = unit(add(some, forward, -dot(some, forward)));
  return { ...size, at, forward, right, down: cross(forward, right) };
}

/** Where a point is seen; the first pixel's centre is (0.5, 0.5). */
export function see(camera: Camera, point: Vec): [number, number] {
  const ray = add(point, camera.at, -1);
  const depth = dot(ray, camera.forward);
  const [x, y] = [dot(ray, camera.right) / depth, dot(ray, camera.down) / depth];
  const stretch = camera.focalPx * (1 + camera.k1 * (x * x + y * y));
  return [camera.width / 2 + x * stretch, camera.height / 2 + y * stretch];
}

/**
 * Where each pixel looks, as a function that fills `ray` with the direction; asked a dozen million times a photo. What the lens does to a
 * radius is looked up in a table, by its square: exact to a millionth of a pixel.
 */
export function lookThrough({ width, height, focalPx, k1, right, down, forward }: Camera) {
  const [rx, ry, rz] = right;
  const [dx, dy, dz] = down;
  const [fx, fy, fz] = forward;
  const STEPS = 1 << 14;
  const perStep = ((width * width + height * height) / (4 * focalPx * focalPx)) * (1.001 / STEPS);
  const table = Float64Array.from({ length: STEPS + 2 }, (_, i) => {
    const seen = Math.sqrt(i * perStep);
    let r = seen;
    for (let step = 0; step < 6; step++) r -= (r * (1 + k1 * r * r) - seen) / (1 + 3 * k1 * r * r);
    return seen === 0 ? 1 / focalPx : r / seen / focalPx;
  });
  const unit = 1 / (focalPx * focalPx * perStep);
  return (px: number, py: number, ray: Float64Array): void => {
    const u = px - width / 2;
    const v = py - height / 2;
    const place = (u * u + v * v) * unit;
    const at = place | 0;
    const scale = table[at]! + (table[at + 1]! - table[at]!) * (place - at);
    const x = u * scale;
    const y = v * scale;
    ray[0] = x * rx + y * dx + fx;
    ray[1] = x * ry + y * dy + fy;
    ray[2] = x * rz + y * dz + fz;
  };
}
