import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { ROOT } from '../../src/cli/ready.mjs';
import { random } from '../sim/random.ts';
import { coatPhoto, type CoatPhoto } from './coat.ts';
import { photograph } from './develop.ts';
import { lapPhoto, type LapPhoto } from './lap.ts';
import { mortarPhoto, type MortarPhoto } from './mortar.ts';

/** Small photos for the screens, of the proportions of a phone's. Drawing one takes seconds, so each is drawn once and kept beside the results. */
export const WIDTH = 1344;

const FOLDER = join(ROOT, 'tests/.out/photos');
/** Raised whenever a picture below is drawn otherwise. */
const DRAWN = 3;

export interface Picture<Truth> {
  readonly jpeg: Buffer;
  readonly truth: Truth;
}

/** A lap of two sheets at the dry fit with the scale card beside it, the frame whole or cut off by the photo's edge. */
export async function lapPicture(frame: 'whole' | 'cut' = 'whole'): Promise<Picture<LapPhoto>> {
  const chance = random(frame === 'whole' ? 5 : 6);
  const truth = lapPhoto({ width: WIDTH, mmPerPx: frame === 'whole' ? [0.3, 0.31] : [0.26, 0.27], tiltDeg: [5, 20] }, chance);
  return { truth, jpeg: await drawn(`lap-${frame}`, () => photograph(truth.camera, truth.scene, truth.film, chance)) };
}

/** A coat with holidays. */
export async function coatPicture(): Promise<Picture<CoatPhoto>> {
  const chance = random(3);
  const truth = coatPhoto({ width: WIDTH, mmPerPx: [0.38, 0.4], holidays: [6, 6], diametersMm: [6, 16] }, chance);
  return { truth, jpeg: await drawn('coat', () => photograph(truth.camera, truth.scene, truth.photoFilm, chance)) };
}

/** The lifted face of a sheet with mortar on it. */
export async function mortarPicture(): Promise<Picture<MortarPhoto>> {
  const chance = random(5);
  const truth = mortarPhoto({ width: WIDTH, sheet: [0.55, 0.25, 0.08], level: 0.6, bareCornerMm: 40 }, chance);
  return { truth, jpeg: await drawn('mortar', () => photograph(truth.camera, truth.scene, truth.film, chance)) };
}

async function drawn(name: string, draw: () => Promise<{ jpeg: Buffer }>): Promise<Buffer> {
  const file = join(FOLDER, `${name}-${DRAWN}.jpg`);
  const kept = await readFile(file).catch(() => null);
  if (kept !== null) return kept;
  const { jpeg } = await draw();
  await mkdir(FOLDER, { recursive: true });
  // Whole at any moment, as two processes may draw it at once.
  await writeFile(`${file}.${process.pid}`, jpeg);
  await rename(`${file}.${process.pid}`, file);
  return jpeg;
}
