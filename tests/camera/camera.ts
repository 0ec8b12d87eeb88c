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

/** Fills `ray` with the direction in which a pixel looks. */
export function lookThrough(camera: Camera, px: number, py: number, ray: Float64Array): void {
  const { focalPx, k1, right, down, forward } = camera;
  let x = (px - camera.width / 2) / focalPx;
  let y = (py - camera.height / 2) / focalPx;
  if (k1 !== 0) {
    const seen = Math.sqrt(x * x + y * y);
    let r = seen;
    for (let step = 0; step < 4; step++) r -= (r * (1 + k1 * r * r) - seen) / (1 + 3 * k1 * r * r);
    if (seen > 0) {
      x *= r / seen;
      y *= r / seen;
    }
  }
  for (let i = 0; i < 3; i++) ray[i] = x * right[i]! + y * down[i]! + forward[i]!;
}
