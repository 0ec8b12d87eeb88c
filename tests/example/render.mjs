import { lens, sub, unit } from './lens.mjs';
import { lookWater, waterAt } from './water.mjs';

/**
 * A small camera: rays against distance functions, lamps with soft shadows, room light dimmed in corners, sheen on what is wet.
 * A scene is { camera: { at, to, fov, up }, shapes, lamps: [{ at, rgb, radius }], sky, ground, water? }; lengths are inches.
 */

const FAR = 320;
const STEPS = 170;

/** Draws a scene. Gives linear light, three numbers a pixel, and the distance of what each pixel shows. */
export function render(scene, width, height) {
  const view = lens(scene.camera, width, height);
  const rgb = new Float32Array(width * height * 3);
  const depth = new Float32Array(width * height);
  const shape = new Int16Array(width * height);
  const world = prepare(scene);
  const out = { r: 0, g: 0, b: 0, t: 0, shape: -1 };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const i = y * width + x;
      look(world, view.at, view.ray(x + 0.5, y + 0.5), view.foot, out, 0);
      rgb.set([out.r, out.g, out.b], i * 3);
      depth[i] = out.t;
      shape[i] = out.shape;
    }
  }
  smoothEdges(world, view, { rgb, depth, shape, width, height });
  return { rgb, depth, width, height };
}

/** Draws the pixels on outlines and printed marks again, four rays each: elsewhere one ray and the sensor's own noise do. */
function smoothEdges(world, view, { rgb, depth, shape, width, height }) {
  const lum = (i) => Math.log(0.02 + rgb[i * 3] * 0.3 + rgb[i * 3 + 1] * 0.6 + rgb[i * 3 + 2] * 0.1);
  const edges = [];
  for (let y = 1; y < height - 1; y++) {
    for (let x = 1; x < width - 1; x++) {
      const i = y * width + x;
      const around = [i - 1, i + 1, i - width, i + width];
      if (around.some((j) => shape[j] !== shape[i] || Math.abs(depth[j] / depth[i] - 1) > 0.04 || Math.abs(lum(j) - lum(i)) > 0.3))
        edges.push([x, y]);
    }
  }
  const out = { r: 0, g: 0, b: 0, t: 0, shape: -1 };
  for (const [x, y] of edges) {
    const sum = [0, 0, 0];
    for (const [dx, dy] of [
      [0.2, 0.35],
      [0.65, 0.2],
      [0.35, 0.8],
      [0.8, 0.65],
    ]) {
      look(world, view.at, view.ray(x + dx, y + dy), view.foot, out, 0);
      sum[0] += Math.min(out.r, 4) / 4;
      sum[1] += Math.min(out.g, 4) / 4;
      sum[2] += Math.min(out.b, 4) / 4;
    }
    rgb.set(sum, (y * width + x) * 3);
  }
}

function prepare(scene) {
  const far = [1e9, 1e9, 1e9];
  const lo = scene.shapes.flatMap((s) => s.lo ?? far.map((x) => -x));
  const hi = scene.shapes.flatMap((s) => s.hi ?? far);
  return { ...scene, boxLo: Float64Array.from(lo), boxHi: Float64Array.from(hi), nearest: -1 };
}

/** Distance to the nearest solid; `world.nearest` says which. Solids whose box is farther than the best so far are not asked. */
function distance(world, x, y, z) {
  const { shapes, boxLo, boxHi } = world;
  let best = 1e9;
  for (let i = 0, k = 0; i < shapes.length; i++, k += 3) {
    const dx = Math.max(boxLo[k] - x, x - boxHi[k], 0);
    const dy = Math.max(boxLo[k + 1] - y, y - boxHi[k + 1], 0);
    const dz = Math.max(boxLo[k + 2] - z, z - boxHi[k + 2], 0);
    const away = dx * dx + dy * dy + dz * dz;
    if (away >= best * best && away > 0) continue;
    // Outside its box a solid is at least as far as the box: near enough to step by, and far cheaper.
    const d = away > 4 ? Math.sqrt(away) : shapes[i].d(x, y, z);
    if (d < best) {
      best = d;
      world.nearest = i;
    }
  }
  return best;
}

function march(world, o, d) {
  let t = 0.02;
  for (let i = 0; i < STEPS; i++) {
    const away = distance(world, o[0] + d[0] * t, o[1] + d[1] * t, o[2] + d[2] * t);
    if (away < 0.0004 * t + 0.0002) return t;
    t += away;
    if (t > FAR) break;
  }
  return t > FAR ? -1 : t;
}

/** How much of a lamp of some size is seen: 0 to 1. */
function lit(world, p, dir, dist, radius) {
  let seen = 1;
  let t = 0.03;
  for (let i = 0; i < 60 && t < dist; i++) {
    const away = distance(world, p[0] + dir[0] * t, p[1] + dir[1] * t, p[2] + dir[2] * t);
    seen = Math.min(seen, 0.5 + (0.5 * away * dist) / (radius * t));
    if (seen <= 0) return 0;
    t += Math.min(Math.max(away, 0.01 + t * 0.006), 14);
  }
  return seen * seen * (3 - 2 * seen);
}

/** How open a point is to the room: 1 on a plain, less in corners and under edges. */
function open(world, p, n) {
  let shut = 0;
  for (const [reach, weight] of OPEN_STEPS) {
    const away = distance(world, p[0] + n[0] * reach, p[1] + n[1] * reach, p[2] + n[2] * reach);
    shut += weight * Math.max(0, 1 - away / reach);
  }
  return Math.max(0.12, 1 - shut);
}
const OPEN_STEPS = [
  [0.05, 0.1],
  [0.2, 0.14],
  [0.8, 0.18],
  [3, 0.2],
  [11, 0.2],
];

function normalOf(shape, p, e) {
  const { d } = shape;
  const [x, y, z] = p;
  const a = d(x + e, y - e, z - e);
  const b = d(x - e, y - e, z + e);
  const c = d(x - e, y + e, z - e);
  const g = d(x + e, y + e, z + e);
  return unit([a - b - c + g, -a - b + c + g, -a + b - c + g]);
}

const paint = { r: 0, g: 0, b: 0, rough: 0.9, f0: 0.04, metal: 0, bump: null };

/** What one ray sees, into `out`. */
function look(world, o, d, foot, out, depth) {
  const tWater = world.water === undefined || depth > 0 ? -1 : waterAt(world.water, o, d);
  const t = march(world, o, d);
  if (tWater > 0 && (t < 0 || tWater < t)) {
    lookWater(world, look, o, d, tWater, foot, out);
    return;
  }
  out.t = t < 0 ? FAR : t;
  out.shape = t < 0 ? -1 : world.nearest;
  if (t < 0) {
    const [r, g, b] = surroundings(world, d);
    out.r = r;
    out.g = g;
    out.b = b;
    return;
  }
  shade(world, world.shapes[world.nearest], [o[0] + d[0] * t, o[1] + d[1] * t, o[2] + d[2] * t], d, t, foot, out, depth);
}

function coordinates(shape, p, n) {
  const { f } = shape;
  const u = f.u(p[0], p[1], p[2]);
  const v = f.v(p[0], p[1], p[2]);
  const w = f.w(p[0], p[1], p[2]);
  if (shape.wrap) return [u, v, w, 0];
  const nu = Math.abs(n[0] * f.U[0] + n[1] * f.U[1] + n[2] * f.U[2]);
  const nv = Math.abs(n[0] * f.V[0] + n[1] * f.V[1] + n[2] * f.V[2]);
  const nw = Math.abs(n[0] * f.W[0] + n[1] * f.W[1] + n[2] * f.W[2]);
  // Sides of a solid are painted along themselves, not smeared from its face.
  if (nw >= nu * 0.75 && nw >= nv * 0.75) return [u, v, w, 0];
  return nu > nv ? [v, w, u, 1] : [u, w, v, 2];
}

function shade(world, shape, p, d, t, foot, out, depth) {
  const pixel = Math.max(0.0015, t * foot);
  let n = normalOf(shape, p, Math.max(0.002, pixel * 0.6));
  const [u, v, w, side] = coordinates(shape, p, n);
  paint.rough = 0.9;
  paint.f0 = 0.035;
  paint.metal = 0;
  paint.bump = null;
  shape.material(u, v, pixel, paint, w, side);
  const { r, g, b, rough, f0, metal } = paint;
  if (paint.bump !== null) n = bumped(shape.f, side, n, paint.bump, u, v, Math.max(0.004, pixel * 0.8));
  if (n[0] * d[0] + n[1] * d[1] + n[2] * d[2] > 0) n = unit([n[0] - d[0] * 0.2, n[1] - d[1] * 0.2, n[2] - d[2] * 0.2]);
  const lift = 0.004 + pixel * 0.5;
  const q = [p[0] + n[0] * lift, p[1] + n[1] * lift, p[2] + n[2] * lift];
  const room = open(world, q, n);
  const up = 0.5 + 0.5 * n[2];
  let lr = 0;
  let lg = 0;
  let lb = 0;
  let sr = 0;
  let sg = 0;
  let sb = 0;
  const a2 = rough ** 4;
  const nv = Math.max(0.03, -(n[0] * d[0] + n[1] * d[1] + n[2] * d[2]));
  for (const lamp of world.lamps) {
    const to = sub(lamp.at, q);
    const dist = Math.sqrt(to[0] * to[0] + to[1] * to[1] + to[2] * to[2]);
    const l = [to[0] / dist, to[1] / dist, to[2] / dist];
    const nl = n[0] * l[0] + n[1] * l[1] + n[2] * l[2];
    if (nl <= 0) continue;
    const strength = (nl * lit(world, q, l, dist, lamp.radius) * 1000) / (dist * dist + 80);
    lr += lamp.rgb[0] * strength;
    lg += lamp.rgb[1] * strength;
    lb += lamp.rgb[2] * strength;
    const h = unit(sub(l, d));
    const nh = Math.max(0, n[0] * h[0] + n[1] * h[1] + n[2] * h[2]);
    // A lamp of some size spreads its highlight as a rougher surface would.
    const wide = Math.min(1, a2 + (lamp.radius / dist) ** 2 * 0.25);
    const lobe = wide / (4 * (nh * nh * (wide - 1) + 1) ** 2);
    const facing = f0 + (1 - f0) * (1 - Math.max(0, -(d[0] * h[0] + d[1] * h[1] + d[2] * h[2]))) ** 5;
    const spec = Math.min(20, (lobe * facing * strength) / Math.max(0.25, nv + nl));
    sr += lamp.rgb[0] * spec;
    sg += lamp.rgb[1] * spec;
    sb += lamp.rgb[2] * spec;
  }
  const { sky, ground } = world;
  const body = 1 - metal;
  out.r = r * body * (lr + room * (ground[0] + (sky[0] - ground[0]) * up)) + (metal ? sr * r : sr);
  out.g = g * body * (lg + room * (ground[1] + (sky[1] - ground[1]) * up)) + (metal ? sg * g : sg);
  out.b = b * body * (lb + room * (ground[2] + (sky[2] - ground[2]) * up)) + (metal ? sb * b : sb);
  if (rough < 0.55) mirror(world, q, n, d, nv, room, out, depth);
}

/** What a smooth surface throws back of the room: real solids for a mirror, only the room's light for a sheen. */
function mirror(world, q, n, d, nv, room, out, depth) {
  const { r, g, b, rough, f0, metal } = paint;
  const k = 2 * (n[0] * d[0] + n[1] * d[1] + n[2] * d[2]);
  const back = [d[0] - n[0] * k, d[1] - n[1] * k, d[2] - n[2] * k];
  const fresnel = (f0 + (Math.max(1 - rough, f0) - f0) * (1 - nv) ** 5) * (1 - rough * 0.6);
  let seen = surroundings(world, back);
  if (rough < 0.25 && depth < 1) {
    const once = { r: 0, g: 0, b: 0, t: 0, shape: -1 };
    look(world, q, back, 0.01, once, depth + 1);
    seen = [once.r, once.g, once.b];
  }
  const share = metal ? 0.9 * room : fresnel * room;
  out.r += seen[0] * share * (metal ? r : 1);
  out.g += seen[1] * share * (metal ? g : 1);
  out.b += seen[2] * share * (metal ? b : 1);
}

/** The room beyond the picture: pale above, dim below, a doorway's light to the south. */
function surroundings(world, d) {
  const up = 0.5 + 0.5 * d[2];
  const door = Math.max(0, -d[1]) ** 6 * 0.8 + Math.max(0, d[2]) ** 8 * 0.6;
  const { sky, ground } = world;
  return [0, 1, 2].map((i) => (ground[i] + (sky[i] - ground[i]) * up) * 0.55 + sky[i] * door);
}

function bumped(f, side, n, bump, u, v, e) {
  const h = bump(u, v);
  const gu = (bump(u + e, v) - h) / e;
  const gv = (bump(u, v + e) - h) / e;
  const U = side === 1 ? f.V : f.U;
  const V = side === 0 ? f.V : f.W;
  return unit([n[0] - U[0] * gu - V[0] * gv, n[1] - U[1] * gu - V[1] * gv, n[2] - U[2] * gu - V[2] * gv]);
}
