/** A pinhole: from pixels to rays. */

export const sub = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const unit = (a) => {
  const l = Math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2]);
  return [a[0] / l, a[1] / l, a[2] / l];
};

/** The camera's axes, and half of what it sees across at distance 1. */
function axes({ at, to, fov, up = [0, 0, 1] }) {
  const forward = unit(sub(to, at));
  const right = unit(cross(forward, up));
  return { forward, right, down: cross(forward, right), half: Math.tan(((fov / 2) * Math.PI) / 180) };
}

/** Where a point is seen, in pixels; the first one's centre is (0.5, 0.5). */
export function seenAt(camera, width, height, point) {
  const { forward, right, down, half } = axes(camera);
  const off = sub(point, camera.at);
  const [x, y, z] = [right, down, forward].map((axis) => off[0] * axis[0] + off[1] * axis[1] + off[2] * axis[2]);
  const perPixel = (2 * half * z) / width;
  return [width / 2 + x / perPixel, height / 2 + y / perPixel];
}

/** `ray(x, y)` through a pixel of a camera with `fov` degrees across; `foot` is a pixel's width at distance 1. */
export function lens(camera, width, height) {
  const { at } = camera;
  const { forward, right, down, half } = axes(camera);
  const ray = (px, py) => {
    const sx = ((px / width) * 2 - 1) * half;
    const sy = (((py / height) * 2 - 1) * half * height) / width;
    return unit([0, 1, 2].map((i) => forward[i] + right[i] * sx + down[i] * sy));
  };
  return { at, ray, foot: (2 * half) / width };
}
