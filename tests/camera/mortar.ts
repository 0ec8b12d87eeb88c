import type { Point, Quad } from '#lib/vision/raster.ts';
import { type Camera, cameraAt, see } from './camera.ts';
import type { Light } from './coat.ts';
import { type Film, grain, type Scene } from './develop.ts';

export interface MortarPhoto {
  readonly camera: Camera;
  readonly scene: Scene;
  readonly film: Film;
  readonly quad: Quad;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly share: number;
  readonly mortar: Point;
  readonly sheet: Point;
}

/** The lifted face of a sheet with mortar in ridges and patches on it. `level` moves the share: 0 is about half, 1 nearly all. */
export function mortarPhoto(
  wishes: { width: number; sheet: Light; level: number; bareCornerMm: number },
  chance: () => number,
): MortarPhoto {
  const range = (low: number, high: number) => low + (high - low) * chance();
  const { width } = wishes;
  const height = Math.round((width * 3) / 4);
  const focalPx = width * range(0.7, 0.85);
  const mmPerPx = range(0.2, 0.3) * (2016 / width);
  const [widthMm, heightMm] = [Math.round(0.6 * width * mmPerPx), Math.round(0.55 * height * mmPerPx)];
  const camera = cameraAt(
    { width, height, focalPx, k1: 0 },
    {
      lookAt: [widthMm / 2, heightMm / 2],
      distanceMm: mmPerPx * focalPx,
      tilt: range(0, 0.3),
      azimuth: range(0, 6.28),
      roll: range(-0.1, 0.1),
    },
  );
  const salt = Math.floor(chance() * 1e6);
  const pitch = range(9, 13);
  const isMortar = (x: number, y: number) => {
    if (Math.hypot(x, y) < wishes.bareCornerMm) return false;
    const ridge = Math.sin((2 * Math.PI * (y + 3 * grain(x, y, 40, salt))) / pitch);
    return ridge * 0.6 + grain(x, y, 18, salt + 1) + wishes.level > 0;
  };
  const mortarLight: Light = [0.3, 0.29, 0.27];
  const shade = { angle: range(0, 6.28), soft: range(3, 30), deep: range(0.5, 1) };
  const scene: Scene = (from, ray, light) => {
    const t = -from[2]! / ray[2]!;
    const [x, y] = [from[0]! + t * ray[0]!, from[1]! + t * ray[1]!];
    const dark = Math.cos(shade.angle) * (x - widthMm / 2) + Math.sin(shade.angle) * (y - heightMm / 2);
    const lit = shade.deep + (1 - shade.deep) / (1 + Math.exp(-dark / shade.soft));
    const mortar = isMortar(x, y);
    const rough = mortar ? 1 + 0.18 * grain(x, y, 1, salt + 2) : 1 + 0.08 * grain(x, y, 0.6, salt + 3);
    for (let i = 0; i < 3; i++) light[i] = lit * rough * (mortar ? mortarLight[i]! : wishes.sheet[i]!);
  };
  const at = (x: number, y: number) => see(camera, [x, y, 0]);
  let [full, all] = [0, 0];
  for (let y = 0.25; y < heightMm; y += 0.5) for (let x = 0.25; x < widthMm; x += 0.5, all++) if (isMortar(x, y)) full++;
  const pick = (want: boolean): Point => {
    for (let tries = 0; tries < 20_000; tries++) {
      const [x, y] = [range(8, widthMm - 8), range(8, heightMm - 8)];
      const ring = Array.from({ length: 12 }, (_, i) => isMortar(x + 1.5 * Math.cos(i / 1.9), y + 1.5 * Math.sin(i / 1.9)));
      if (isMortar(x, y) === want && ring.every((each) => each === want)) return at(x, y);
    }
    throw new Error(`no place with mortar: ${want}`);
  };
  return {
    camera,
    scene,
    film: { blurPx: range(0.7, 1.2), electrons: 3000, vignette: 0.2, cast: [1, 1, range(0.85, 1.05)], exposure: 1, quality: 80 },
    quad: [at(0, 0), at(widthMm, 0), at(widthMm, heightMm), at(0, heightMm)],
    widthMm,
    heightMm,
    share: full / all,
    mortar: pick(true),
    sheet: pick(false),
  };
}
