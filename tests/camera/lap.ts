import { CARD, isBlackCell, MARKER_CELLS } from '#lib/vision/card.ts';
import type { Point, Quad } from '#lib/vision/raster.ts';
import { add, type Camera, cameraAt, cross, dot, see, unit, type Vec } from './camera.ts';
import { type Film, grain, inside, normal, type Scene } from './develop.ts';

/** How a scene is drawn by chance, and what makes it hopeless. */
export interface LapWishes {
  readonly width: number;
  /** Range of the scale at the middle of the picture. */
  readonly mmPerPx: readonly [number, number];
  readonly tiltDeg: readonly [number, number];
  readonly gapMm?: readonly [number, number];
  readonly k1?: readonly [number, number];
  readonly blurPx?: readonly [number, number];
  /** The card stands off the surface by this, is propped up by this angle on a side or corner of its paper, or is bent to this height. */
  readonly liftMm?: number;
  readonly propDeg?: number;
  readonly bendMm?: number;
  readonly bare?: boolean;
  /** The lap's edges run apart by this angle. */
  readonly skewDeg?: number;
  /** No lap is drawn: nothing straight beside the card. */
  readonly blank?: boolean;
}

export interface LapPhoto {
  readonly camera: Camera;
  readonly scene: Scene;
  readonly film: Film;
  /** Outer corners of the frame as seen. */
  readonly corners: Quad;
  readonly segments: readonly { readonly from: Point; readonly to: Point; readonly lengthMm: number }[];
}

const { paper, margin, frame } = CARD;
const CARD_REACH_MM = 160;

/**
 * A lap of two sheets with the scale card beside it, under a lamp from one side with the edge of a shadow. The truth is where the two
 * edges are; ends lie at random places along them, and two more segments anywhere near the card.
 */
export function lapPhoto(wishes: LapWishes, chance: () => number): LapPhoto {
  const range = ([low, high]: readonly [number, number]) => low + (high - low) * chance();
  const rad = Math.PI / 180;
  const { width, blank = false } = wishes;
  const height = Math.round((width * 3) / 4);
  const focalPx = width * range([0.7, 0.85]);
  const lapMm = range([30, 70]);
  const gap = range(wishes.gapMm ?? [8, 60]);
  // The lap's lower edge is y = 0, its upper edge y = -lapMm or turned from there; the card lies below, turned a little.
  const skew = Math.tan((wishes.skewDeg ?? 0) * rad);
  const turn = range([-0.3, 0.3]);
  const [along, across] = cardAxes(turn, (wishes.propDeg ?? 0) * rad, chance() * 2 * Math.PI);
  // The camera is on the side of negative z. What is propped up lies on the surface with one corner.
  const offMm = (wishes.liftMm ?? 0) + (paper.width * Math.abs(along[2]) + paper.height * Math.abs(across[2])) / 2;
  const middle: Vec = [range([-40, 40]), gap + paper.height / 2 + 0.5 * paper.width * Math.abs(Math.sin(turn)), -offMm];
  const camera = cameraAt(
    { width, height, focalPx, k1: range(wishes.k1 ?? [-0.08, 0.1]) },
    {
      lookAt: [range([-25, 25]), (middle[1] - lapMm) / 2 + range([-15, 15])],
      distanceMm: range(wishes.mmPerPx) * focalPx,
      tilt: range(wishes.tiltDeg) * rad,
      azimuth: chance() * 2 * Math.PI,
      roll: chance() * 2 * Math.PI,
    },
  );
  const normalOut = cross(along, across);
  const place = (x: number, y: number): Vec => add(add(middle, along, x - frame.width / 2), across, y - frame.height / 2);
  const bend = wishes.bendMm ?? 0;
  const upper: Vec = [range([0.15, 0.5]), range([0.15, 0.5]), range([0.15, 0.5])];
  const lower: Vec = [range([0.2, 0.6]), range([0.2, 0.6]), range([0.2, 0.6])];
  const lamp = { x: range([-300, 300]), y: range([-300, 300]), far: range([350, 900]) };
  const shade = { angle: chance() * 2 * Math.PI, at: range([-150, 150]), soft: range([2, 25]), deep: range([0.35, 1]) };
  const salt = Math.floor(chance() * 1e6);
  const pixel = camera.focalPx;

  const scene: Scene = (from, ray, light) => {
    const t = -from[2]! / ray[2]!;
    const [x, y] = [from[0]! + t * ray[0]!, from[1]! + t * ray[1]!];
    const foot = t / pixel;
    // The surface: lower sheet, the upper one over it beyond its edge, both edges drawn as the step's thin shadow.
    const over = blank ? 0 : inside(-y, foot);
    const edge = blank ? 0 : Math.max(inside(0.4 - Math.abs(y), foot), 0.6 * inside(0.3 - Math.abs(y + lapMm + skew * x), foot));
    const rough = 1 + 0.1 * grain(x, y, 0.7, salt) + 0.06 * grain(x, y, 9, salt + 1);
    for (let i = 0; i < 3; i++) light[i] = (lower[i]! * (1 - over) + upper[i]! * over) * rough * (1 - 0.6 * edge);
    // Nothing of the card is seen farther from its middle than this, however it stands.
    if ((x - middle[0]) ** 2 + (y - middle[1]) ** 2 < CARD_REACH_MM ** 2) onCard(from, ray, light);
    const d2 = (x - lamp.x) ** 2 + (y - lamp.y) ** 2;
    const dark = Math.cos(shade.angle) * x + Math.sin(shade.angle) * y - shade.at;
    const lit = (1.15 / (1 + d2 / lamp.far ** 2)) * (shade.deep + (1 - shade.deep) / (1 + Math.exp(-dark / shade.soft)));
    for (let i = 0; i < 3; i++) light[i]! *= lit;
  };

  function onCard(from: readonly number[], ray: Float64Array, light: Float64Array): void {
    const way = ray[0]! * normalOut[0] + ray[1]! * normalOut[1] + ray[2]! * normalOut[2];
    const off: Vec = [middle[0] - from[0]!, middle[1] - from[1]!, middle[2] - from[2]!];
    let [u, v, t, high] = [0, 0, 0, 0];
    for (let step = 0; step < (bend === 0 ? 1 : 4); step++) {
      t = (dot(off, normalOut) - high) / way;
      const hit: Vec = [t * ray[0]! - off[0], t * ray[1]! - off[1], t * ray[2]! - off[2]];
      [u, v] = [dot(hit, along) + frame.width / 2, dot(hit, across) + frame.height / 2];
      high = bend * (1 - ((2 * u) / frame.width - 1) ** 2);
    }
    const foot = t / pixel;
    const depth = Math.min(u + margin, v + margin, frame.width + margin - u, frame.height + margin - v);
    if (depth < -foot) return;
    const sheet = inside(depth, foot);
    const ink = inkAt(u, v, foot, wishes.bare ?? false);
    for (let i = 0; i < 3; i++) light[i] = light[i]! * (1 - sheet) + sheet * (0.82 * (1 - ink) + 0.035 * ink);
  }

  const segments: LapPhoto['segments'][number][] = [];
  const segment = (a: Vec, b: Vec) => {
    const [from, to] = [see(camera, a), see(camera, b)];
    const fits = [from, to].every(([px, py]) => px > 20 && py > 20 && px < width - 20 && py < height - 20);
    if (fits) segments.push({ from, to, lengthMm: Math.hypot(...add(a, b, -1)) });
  };
  for (let i = 0; i < 4; i++) {
    const x = range([-90, 90]);
    segment([x, 0, 0], [x, -lapMm - skew * x, 0]);
  }
  for (let i = 0; i < 2; i++) {
    const [x, y, angle, length] = [range([-90, 90]), range([-lapMm - 20, 0]), chance() * 2 * Math.PI, range([10, 25])];
    segment([x, y, 0], [x + length * Math.cos(angle), y + length * Math.sin(angle), 0]);
  }
  const corners = [place(0, 0), place(frame.width, 0), place(frame.width, frame.height), place(0, frame.height)].map((corner) =>
    see(camera, corner),
  );
  const film: Film = {
    blurPx: range(wishes.blurPx ?? [0.6, 1.3]),
    electrons: range([1500, 8000]),
    vignette: range([0, 0.35]),
    cast: [range([0.85, 1.1]), 1, range([0.75, 1.1])],
    exposure: range([0.8, 1.25]),
    quality: 80,
  };
  return { camera, scene, film, corners: corners as unknown as Quad, segments };
}

/** The card's axes: in the surface, turned, and then tipped out of it about a line in the surface. */
function cardAxes(turn: number, prop: number, about: number): [Vec, Vec] {
  const axis: Vec = [Math.cos(about), Math.sin(about), 0];
  const tip = (v: Vec): Vec =>
    unit(
      add(
        add([v[0] * Math.cos(prop), v[1] * Math.cos(prop), v[2] * Math.cos(prop)], cross(axis, v), Math.sin(prop)),
        axis,
        dot(axis, v) * (1 - Math.cos(prop)),
      ),
    );
  return [tip([Math.cos(turn), Math.sin(turn), 0]), tip([-Math.sin(turn), Math.cos(turn), 0])];
}

/** Black of the printed card at a point of it, 0 to 1. */
function inkAt(u: number, v: number, foot: number, bare: boolean): number {
  const out = Math.min(u, v, frame.width - u, frame.height - v);
  const ring = Math.min(inside(out, foot), inside(frame.line - out, foot));
  if (ring > 0 || out < frame.line || bare) return ring;
  for (const [marker, [x, y]] of CARD.markers.at.entries()) {
    const cell = CARD.markers.side / MARKER_CELLS;
    const [column, row] = [(u - x) / cell, (v - y) / cell];
    if (column < 0 || row < 0 || column >= MARKER_CELLS || row >= MARKER_CELLS) continue;
    return isBlackCell(marker, Math.floor(column), Math.floor(row)) ? 1 : 0;
  }
  const { bar } = CARD;
  return u > bar.x && u < bar.x + bar.length ? inside(0.5 - Math.abs(v - bar.y), foot) : 0;
}

/** A tapped point: the true one and an error of `sdPx` each way. */
export function tap([x, y]: Point, sdPx: number, chance: () => number): Point {
  return [x + sdPx * normal(chance), y + sdPx * normal(chance)];
}
