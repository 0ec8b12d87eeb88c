import { globSync } from 'node:fs';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import sharp from 'sharp';
import { ROOT } from '../../src/cli/ready.mjs';

const FILM = join(ROOT, 'tests/.out/film.mjpeg');

/** What the fake camera sees: the example's photographs, over and over. A page still has to be allowed to use it. */
export const CAMERA_FLAGS = ['--use-fake-device-for-media-stream', `--use-file-for-fake-video-capture=${FILM}`] as const;

/** Writes the film: Chromium plays JPEG pictures that follow one another in a file. Whole at any moment, as several may write it. */
export async function makeFilm(): Promise<void> {
  const seen = photographs().slice(0, 12);
  if (seen.length === 0) throw new Error('static/example holds no photographs: node tests/example/draw.mjs');
  const frames = await Promise.all(seen.map((file) => sharp(file).resize(1024, 768).jpeg({ quality: 80 }).toBuffer()));
  await mkdir(dirname(FILM), { recursive: true });
  await writeFile(`${FILM}.${process.pid}`, Buffer.concat(frames));
  await rename(`${FILM}.${process.pid}`, FILM);
}

/** The example's photographs, as files. */
export function photographs(): string[] {
  return globSync('static/example/*.jpg', { cwd: ROOT })
    .sort()
    .map((file) => join(ROOT, file));
}
