import type { Point, Quad } from '#lib/vision/raster.ts';
import { type Camera, cameraAt, see } from './camera.ts';
import { type Film, grain, inside, type Scene } from './develop.ts';

export type Light = readonly [number, number, number];

export interface CoatWishes {
  readonly width: number;
  readonly mmPerPx: readonly [number, number];
  /** Colours of film and substrate as light; by chance when absent. */
  readonly film?: Light;
  readonly bare?: Light;
  /** Number of holidays and range of their diameters. */
  readonly holidays: readonly [number, number];
  readonly diametersMm: readonly [number, number];
  /** The coat ends within the area. */
  readonly unfinished?: boolean;
  /** Radius of the lamp's reflection on wet film; 0 for matt film. */
  readonly glareMm?: number;
}

export interface Hole {
  readonly x: number;
  readonly y: number;
  readonly diameterMm: number;
}

export interface CoatPhoto {
  readonly camera: Camera;
  readonly scene: Scene;
  readonly photoFilm: Film;
  readonly quad: Quad;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly holes: readonly Hole[];
  readonly coveredShare: number;
  readonly filmTaps: readonly Point[];
  readonly bareTaps: readonly Point[];
}

/** A board with a coat on it that has holidays, and a bare strip beyond the marked area. */
export function coatPhoto(wishes: CoatWishes, chance: () => number): CoatPhoto {
  const range = ([low, high]: readonly [number, number]) => low + (high - low) * chance();
  const { width } = wishes;
  const height = Math.round((width * 3) / 4);
  const focalPx = width * range([0.7, 0.85]);
  const mmPerPx = range(wishes.mmPerPx);
  const [widthMm, heightMm] = [0.62 * width * mmPerPx, 0.6 * height * mmPerPx].map(Math.round) as [number, number];
  const camera = cameraAt(
    { width, height, focalPx, k1: range([-0.02, 0.02]) },
    {
      lookAt: [widthMm / 2, heightMm / 2],
      distanceMm: mmPerPx * focalPx,
      tilt: (range([0, 22]) * Math.PI) / 180,
      azimuth: chance() * 2 * Math.PI,
      roll: range([-0.15, 0.15]),
    },
  );
  const [film, bare] = colours(wishes, chance);
  const edgeX = wishes.unfinished ? widthMm * range([0.5, 0.9]) : widthMm + 12;
  const count = Math.round(range(wishes.holidays));
  const holes: (Hole & { turn: number; lobes: number; rough: number })[] = [];
  for (let tries = 0; holes.length < count && tries < 500; tries++) {
    const diameterMm = wishes.diametersMm[0] * (wishes.diametersMm[1] / wishes.diametersMm[0]) ** chance();
    const hole = {
      x: range([15, Math.min(widthMm - 15, edgeX - 25)]),
      y: range([15, heightMm - 15]),
      diameterMm,
      turn: chance() * 6,
      lobes: 2 + Math.floor(chance() * 3),
      rough: range([0, 0.2]),
    };
    if (holes.every((other) => Math.hypot(other.x - hole.x, other.y - hole.y) > (other.diameterMm + diameterMm) * 0.75 + 6))
      holes.push(hole);
  }
  const salt = Math.floor(chance() * 1e6);
  /** Signed depth inside the film in mm, without thickness of its edge. */
  const depth = (x: number, y: number) => {
    let least = edgeX + (wishes.unfinished ? 6 * grain(0, y, 25, salt + 3) : 0) - x;
    for (const { x: hx, y: hy, diameterMm, turn, lobes, rough } of holes) {
      const [dx, dy] = [x - hx, y - hy];
      if (Math.abs(dx) > diameterMm || Math.abs(dy) > diameterMm) continue;
      const radius =
        (diameterMm / 2) * (1 + rough * Math.sin(lobes * Math.atan2(dy, dx) + turn)) * (1 / Math.sqrt(1 + (rough * rough) / 2));
      least = Math.min(least, Math.hypot(dx, dy) - radius);
    }
    return least;
  };
  const lamp = { x: range([-200, 600]), y: range([-200, 500]), far: range([400, 1200]) };
  const shade = { angle: chance() * 6.28, at: range([-150, 150]), soft: range([2, 25]), deep: range([0.4, 1]) };
  const glare = { x: range([0.2, 0.8]) * widthMm, y: range([0.2, 0.8]) * heightMm, radius: wishes.glareMm ?? 0 };

  const scene: Scene = (from, ray, light) => {
    const t = -from[2]! / ray[2]!;
    const [x, y] = [from[0]! + t * ray[0]!, from[1]! + t * ray[1]!];
    const foot = t / focalPx;
    const covered = inside(depth(x, y), Math.max(foot, 0.3));
    const thick = 1 + 0.05 * grain(x, y, 14, salt) + 0.04 * grain(x, y, 1.2, salt + 1);
    const board = 1 + 0.08 * grain(x, y, 0.6, salt + 2) + 0.05 * grain(x, y, 11, salt + 4);
    const d2 = (x - lamp.x) ** 2 + (y - lamp.y) ** 2;
    const dark = Math.cos(shade.angle) * (x - widthMm / 2) + Math.sin(shade.angle) * (y - heightMm / 2) - shade.at;
    const lit = (1.1 / (1 + d2 / lamp.far ** 2)) * (shade.deep + (1 - shade.deep) / (1 + Math.exp(-dark / shade.soft)));
    let shine = 0;
    if (glare.radius > 0) {
      const ripple = Math.max(0, 1 + 0.8 * grain(x, y, 3, salt + 5));
      shine = 1.6 * ripple * Math.exp(-((x - glare.x) ** 2 + (y - glare.y) ** 2) / (2 * glare.radius ** 2)) * (0.15 + 0.85 * covered);
    }
    for (let i = 0; i < 3; i++) light[i] = lit * (covered * film[i]! * thick + (1 - covered) * bare[i]! * board) + shine;
  };

  const at = (x: number, y: number) => see(camera, [x, y, 0]);
  let [full, all] = [0, 0];
  for (let y = 0.125; y < heightMm; y += 0.25) for (let x = 0.125; x < widthMm; x += 0.25, all++) if (depth(x, y) > 0) full++;
  const filmTaps: Point[] = [];
  for (let tries = 0; filmTaps.length < 3 && tries < 3000; tries++) {
    const [x, y] = [range([8, widthMm - 8]), range([8, heightMm - 8])];
    const shines = glare.radius > 0 && Math.hypot(x - glare.x, y - glare.y) < 3.5 * glare.radius;
    if (depth(x, y) > 5 && !shines) filmTaps.push(at(x, y));
  }
  const bareTaps: Point[] = [];
  const large = holes.filter(({ diameterMm, rough }) => diameterMm * (1 - rough) > 6)[0];
  if (large !== undefined) bareTaps.push(at(large.x, large.y));
  bareTaps.push(at(wishes.unfinished ? widthMm - 6 : widthMm + 20, heightMm * range([0.3, 0.7])));
  return {
    camera,
    scene,
    photoFilm: {
      blurPx: range([0.6, 1.3]),
      electrons: range([1500, 8000]),
      vignette: range([0, 0.35]),
      cast: [range([0.85, 1.1]), 1, range([0.75, 1.1])],
      exposure: range([0.8, 1.2]),
      quality: 80,
    },
    quad: [at(0, 0), at(widthMm, 0), at(widthMm, heightMm), at(0, heightMm)] as unknown as Quad,
    widthMm,
    heightMm,
    holes,
    coveredShare: full / all,
    filmTaps,
    bareTaps,
  };
}

/** A saturated film on a pale board. */
function colours({ film, bare }: CoatWishes, chance: () => number): [Light, Light] {
  const hues: readonly Light[] = [
    [0.05, 0.12, 0.35],
    [0.35, 0.06, 0.05],
    [0.05, 0.25, 0.1],
    [0.55, 0.3, 0.04],
    [0.06, 0.28, 0.3],
    [0.3, 0.12, 0.3],
  ];
  const grey = 0.3 + 0.35 * chance();
  const chosen = hues[Math.floor(chance() * hues.length)]!;
  return [film ?? chosen, bare ?? [grey * (0.95 + 0.1 * chance()), grey, grey * (0.85 + 0.15 * chance())]];
}
