import { globSync } from 'node:fs';
import { mkdir, rename, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import sharp from 'sharp';
import { ROOT } from '../../src/cli/ready.mjs';

const FILM = join(ROOT, 'tests/.out/film.y4m');
const [WIDTH, HEIGHT] = [1024, 768];
/** A phone's thirty a second, as JPEG, keep half a core busy as long as a viewfinder is open. */
const FRAMES_A_SECOND = 10;

/** What the fake camera sees: the example's photographs, over and over. A page still has to be allowed to use it. */
export const CAMERA_FLAGS = ['--use-fake-device-for-media-stream', `--use-file-for-fake-video-capture=${FILM}`] as const;

/** Writes the film, in YUV4MPEG2. Whole at any moment, as several may write it. */
export async function makeFilm(): Promise<void> {
  const seen = photographs().slice(0, 12);
  if (seen.length === 0) throw new Error('static/example holds no photographs: node tests/example/draw.mjs');
  const frames = await Promise.all(
    seen.map(async (file) => yuv420(await sharp(file).resize(WIDTH, HEIGHT).removeAlpha().raw().toBuffer())),
  );
  const head = Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F${FRAMES_A_SECOND}:1 Ip A1:1 C420\n`);
  await mkdir(dirname(FILM), { recursive: true });
  await writeFile(`${FILM}.${process.pid}`, Buffer.concat([head, ...frames.flatMap((frame) => [Buffer.from('FRAME\n'), frame])]));
  await rename(`${FILM}.${process.pid}`, FILM);
}

/** RGB to the planes of a film: brightness of every pixel, then each colour difference of every second pixel of every second row (ITU-R BT.601). */
function yuv420(rgb: Buffer): Buffer {
  const planes = Buffer.alloc((WIDTH * HEIGHT * 3) / 2);
  const [blue, red] = [WIDTH * HEIGHT, (WIDTH * HEIGHT * 5) / 4];
  for (let y = 0, i = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++, i++) {
      const [r, g, b] = [rgb[3 * i]!, rgb[3 * i + 1]!, rgb[3 * i + 2]!];
      planes[i] = 16 + 0.257 * r + 0.504 * g + 0.098 * b;
      if (x % 2 === 1 || y % 2 === 1) continue;
      const half = (y / 2) * (WIDTH / 2) + x / 2;
      planes[blue + half] = 128 - 0.148 * r - 0.291 * g + 0.439 * b;
      planes[red + half] = 128 + 0.439 * r - 0.368 * g - 0.071 * b;
    }
  }
  return planes;
}

/** The example's photographs, as files. */
export function photographs(): string[] {
  return globSync('static/example/*.jpg', { cwd: ROOT })
    .sort()
    .map((file) => join(ROOT, file));
}
