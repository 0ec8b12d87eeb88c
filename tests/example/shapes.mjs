/**
 * Solids as signed distance functions, in inches, each with the box that bounds it and the frame its surface is painted in.
 * A frame turns a point into (u, v, w): along the surface, along the surface, off the surface.
 */

// Math.hypot guards against overflow, which costs ten times what the rest of a distance does.
const len = (a, b, c = 0) => Math.sqrt(a * a + b * b + c * c);

/** A frame from an origin and three unit axes at right angles. */
export function frame(o, U, V, W) {
  return {
    o,
    U,
    V,
    W,
    u: (x, y, z) => (x - o[0]) * U[0] + (y - o[1]) * U[1] + (z - o[2]) * U[2],
    v: (x, y, z) => (x - o[0]) * V[0] + (y - o[1]) * V[1] + (z - o[2]) * V[2],
    w: (x, y, z) => (x - o[0]) * W[0] + (y - o[1]) * W[1] + (z - o[2]) * W[2],
  };
}

/** The frame moved to (u, v, w) and turned by `degrees` about its normal. */
export function placed(f, u, v, w = 0, degrees = 0) {
  const c = Math.cos((degrees * Math.PI) / 180);
  const s = Math.sin((degrees * Math.PI) / 180);
  const at = [0, 1, 2].map((i) => f.o[i] + f.U[i] * u + f.V[i] * v + f.W[i] * w);
  const U = [0, 1, 2].map((i) => f.U[i] * c + f.V[i] * s);
  const V = [0, 1, 2].map((i) => f.V[i] * c - f.U[i] * s);
  return frame(at, U, V, f.W);
}

/** The frame stood on its side: what was off the surface becomes `v`, what was `v` becomes depth. */
export function upright(f) {
  return frame(
    f.o,
    f.U,
    f.W,
    f.V.map((x) => -x),
  );
}

/** The frame leaning by `degrees` about its u axis: v rises off the surface. */
export function leaning(f, degrees) {
  const c = Math.cos((degrees * Math.PI) / 180);
  const s = Math.sin((degrees * Math.PI) / 180);
  const V = [0, 1, 2].map((i) => f.V[i] * c + f.W[i] * s);
  const W = [0, 1, 2].map((i) => f.W[i] * c - f.V[i] * s);
  return frame(f.o, f.U, V, W);
}

function bounds(f, u0, u1, v0, v1, w0, w1) {
  const lo = [Infinity, Infinity, Infinity];
  const hi = [-Infinity, -Infinity, -Infinity];
  for (const u of [u0, u1]) {
    for (const v of [v0, v1]) {
      for (const w of [w0, w1]) {
        for (let i = 0; i < 3; i++) {
          const at = f.o[i] + f.U[i] * u + f.V[i] * v + f.W[i] * w;
          lo[i] = Math.min(lo[i], at);
          hi[i] = Math.max(hi[i], at);
        }
      }
    }
  }
  return { lo, hi };
}

/** An endless plane at w = 0; `skew` adds a height (u, v), gentle enough to leave distances honest. */
export function plane(f, material, skew = null) {
  const d = skew === null ? f.w : (x, y, z) => (f.w(x, y, z) - skew(f.u(x, y, z), f.v(x, y, z))) * 0.98;
  return { d, f, material, lo: null, hi: null };
}

/**
 * A layer lying on the frame between u0..u1 and v0..v1 whose top is `height(u, v)`, at most `top`: sheets, bands, mortar, blades.
 * `slack` < 1 shortens steps where the height is steep. `wobble(along)` lets an edge run as a knife ran.
 */
export function layer(f, [u0, v0, u1, v1], top, height, material, { slack = 0.7, wobble = null, base = -0.2, corner = 0 } = {}) {
  const cu = (u0 + u1) / 2;
  const cv = (v0 + v1) / 2;
  const hu = (u1 - u0) / 2 - corner;
  const hv = (v1 - v0) / 2 - corner;
  const d = (x, y, z) => {
    const u = f.u(x, y, z);
    const v = f.v(x, y, z);
    const w = f.w(x, y, z);
    const edge = wobble === null ? 0 : wobble(u + v);
    const du = Math.abs(u - cu) - hu - edge;
    const dv = Math.abs(v - cv) - hv - edge;
    const side = len(Math.max(du, 0), Math.max(dv, 0)) + Math.min(Math.max(du, dv), 0) - corner;
    const over = w > top + 0.5 ? w - top : (w - height(u, v)) * slack;
    const off = Math.max(over, base - w);
    return len(Math.max(side, 0), Math.max(off, 0)) + Math.min(Math.max(side, off), 0);
  };
  return { d, f, material, ...bounds(f, u0 - 0.2, u1 + 0.2, v0 - 0.2, v1 + 0.2, base, top) };
}

/** A box, its centre at the frame's origin, its edges rounded by `round`. */
export function box(f, [a, b, c], material, round = 0.02) {
  const d = (x, y, z) => {
    const du = Math.abs(f.u(x, y, z)) - a + round;
    const dv = Math.abs(f.v(x, y, z)) - b + round;
    const dw = Math.abs(f.w(x, y, z)) - c + round;
    return len(Math.max(du, 0), Math.max(dv, 0), Math.max(dw, 0)) + Math.min(Math.max(du, dv, dw), 0) - round;
  };
  return { d, f, material, ...bounds(f, -a, a, -b, b, -c, c) };
}

/** A cylinder about the frame's w axis, from w = 0 to `length`; a tube when `bore` > 0. */
export function cylinder(f, radius, length, material, { bore = 0, round = 0.02 } = {}) {
  const d = (x, y, z) => {
    const r = len(f.u(x, y, z), f.v(x, y, z));
    const ring = bore > 0 ? Math.abs(r - (radius + bore) / 2) - (radius - bore) / 2 : r - radius;
    const dr = ring + round;
    const dw = Math.abs(f.w(x, y, z) - length / 2) - length / 2 + round;
    return len(Math.max(dr, 0), Math.max(dw, 0)) + Math.min(Math.max(dr, dw), 0) - round;
  };
  return { d, f, material, ...bounds(f, -radius, radius, -radius, radius, 0, length) };
}

/** A rod of `radius` through points of space: wires, handles, cords. */
export function rod(points, radius, material) {
  const f = frame([0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]);
  const d = (x, y, z) => {
    let best = Infinity;
    for (let i = 1; i < points.length; i++) {
      const [ax, ay, az] = points[i - 1];
      const [bx, by, bz] = points[i];
      const ex = bx - ax;
      const ey = by - ay;
      const ez = bz - az;
      const t = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey + (z - az) * ez) / (ex * ex + ey * ey + ez * ez)));
      best = Math.min(best, len(x - ax - ex * t, y - ay - ey * t, z - az - ez * t));
    }
    return best - radius;
  };
  const lo = [0, 1, 2].map((i) => Math.min(...points.map((p) => p[i])) - radius);
  const hi = [0, 1, 2].map((i) => Math.max(...points.map((p) => p[i])) + radius);
  return { d, f, material, lo, hi };
}

/** A plate whose outline is a 2D distance `outline(u, v)` inside the given box, `thick` either way of w = 0. */
export function plate(f, outline, [u0, v0, u1, v1], thick, material) {
  const d = (x, y, z) => {
    const side = outline(f.u(x, y, z), f.v(x, y, z));
    const over = Math.abs(f.w(x, y, z)) - thick;
    return len(Math.max(side, 0), Math.max(over, 0)) + Math.min(Math.max(side, over), 0);
  };
  return { d, f, material, ...bounds(f, u0, u1, v0, v1, -thick, thick) };
}

/** A curved sheet: the line through `points` (v, w) drawn along u from u0 to u1. Painted by length along the line. */
export function curl(f, u0, u1, points, thick, material) {
  const lengths = points.map((_, i) =>
    points.slice(1, i + 1).reduce((sum, p, k) => sum + len(p[0] - points[k][0], p[1] - points[k][1]), 0),
  );
  const near = (v, w) => {
    let best = Infinity;
    let along = 0;
    for (let i = 1; i < points.length; i++) {
      const [a, b] = [points[i - 1], points[i]];
      const ev = b[0] - a[0];
      const ew = b[1] - a[1];
      const t = Math.min(1, Math.max(0, ((v - a[0]) * ev + (w - a[1]) * ew) / (ev * ev + ew * ew)));
      const dist = len(v - a[0] - ev * t, w - a[1] - ew * t);
      if (dist < best) {
        best = dist;
        along = lengths[i - 1] + t * len(ev, ew);
      }
    }
    return { best, along };
  };
  const d = (x, y, z) => {
    const side = Math.abs(f.u(x, y, z) - (u0 + u1) / 2) - (u1 - u0) / 2;
    const over = near(f.v(x, y, z), f.w(x, y, z)).best - thick;
    return len(Math.max(side, 0), Math.max(over, 0)) + Math.min(Math.max(side, over), 0);
  };
  const vs = points.map((p) => p[0]);
  const ws = points.map((p) => p[1]);
  const paintFrame = { ...f, v: (x, y, z) => near(f.v(x, y, z), f.w(x, y, z)).along };
  const box = bounds(f, u0, u1, Math.min(...vs) - thick, Math.max(...vs) + thick, Math.min(...ws) - thick, Math.max(...ws) + thick);
  return { d, f: paintFrame, material, ...box };
}

/** One solid with another cut out of it; the cut shows the first one's material. */
export function cut(whole, ...away) {
  return { ...whole, d: (x, y, z) => away.reduce((d, part) => Math.max(d, -part.d(x, y, z)), whole.d(x, y, z)) };
}

/** A small solid at every point of a lattice on the frame, moved off it by `shift(i, j)`; painted in each one's own (u, v). */
export function lattice(f, [stepU, stepV], shift, [u0, v0, u1, v1], top, part, material) {
  const own = (x, y, z) => {
    const u = f.u(x, y, z);
    const v = f.v(x, y, z);
    const i = Math.round(u / stepU);
    const j = Math.round(v / stepV);
    const [du, dv] = shift(i, j);
    return [u - i * stepU - du, v - j * stepV - dv];
  };
  const far = Math.min(stepU, stepV) * 0.4;
  const d = (x, y, z) => Math.min(part(...own(x, y, z), f.w(x, y, z)), far);
  const ownFrame = { ...f, u: (x, y, z) => own(x, y, z)[0], v: (x, y, z) => own(x, y, z)[1] };
  return { d, f: ownFrame, material, ...bounds(f, u0, u1, v0, v1, -0.1, top) };
}
