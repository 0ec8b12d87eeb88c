/** A pinhole: from pixels to rays. */

export const sub = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const unit = (a) => {
  const l = Math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2]);
  return [a[0] / l, a[1] / l, a[2] / l];
};

/** `ray(x, y)` through a pixel of a camera with `fov` degrees across; `foot` is a pixel's width at distance 1. */
export function lens({ at, to, fov, up = [0, 0, 1] }, width, height) {
  const forward = unit(sub(to, at));
  const right = unit(cross(forward, up));
  const down = cross(forward, right);
  const half = Math.tan(((fov / 2) * Math.PI) / 180);
  const ray = (px, py) => {
    const sx = ((px / width) * 2 - 1) * half;
    const sy = (((py / height) * 2 - 1) * half * height) / width;
    return unit([0, 1, 2].map((i) => forward[i] + right[i] * sx + down[i] * sy));
  };
  return { at, ray, foot: (2 * half) / width };
}
