import { createHash } from 'node:crypto';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { develop, jpeg } from './develop.mjs';
import { stream } from './noise.mjs';
import { PICTURES } from './pictures.mjs';
import { render } from './render.mjs';

/**
 * Draws the example's pictures into static/example/ and lists them in pictures.json. Run once, its result committed:
 * `node tests/example/draw.mjs` (about an hour on one core), or with the beginnings of file names to draw only those.
 * The example's log holds the pictures' hashes: afterwards run `node src/cli/example/write.ts`.
 */

const FOLDER = new URL('../../static/example/', import.meta.url);
const WIDTH = 1280;
const HEIGHT = 960;
const MOST_BYTES = 178_000;

async function draw({ file, scene: make, camera, portrait = false }) {
  const scene = make();
  const seed = Number(file.slice(0, 2));
  const chance = stream(seed);
  // Each exposure a little off, each white a little warm or cool: no two pictures of a phone agree.
  const warm = (chance() - 0.5) * 0.07;
  const look = {
    exposure: 0.86 + 0.14 * chance(),
    white: [1 + warm, 1, 1 - warm],
    grain: 0.8 + 0.4 * chance(),
    seed: seed * 100,
    ...scene.develop,
  };
  const [width, height] = portrait ? [HEIGHT, WIDTH] : [WIDTH, HEIGHT];
  const pixels = develop(render(scene, width, height), look);
  // Held upright, a phone still writes the long side first and says how to turn it.
  const stored = portrait ? turnedLeft(pixels, width, height) : pixels;
  const bytes = await jpeg(stored, WIDTH, HEIGHT, MOST_BYTES, camera && { ...camera, orientation: portrait ? 6 : 1 });
  await writeFile(new URL(file, FOLDER), bytes);
  console.log(`${file} ${bytes.length}`);
}

function turnedLeft(pixels, width, height) {
  const out = Buffer.alloc(pixels.length);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) pixels.copy(out, ((width - 1 - x) * height + y) * 3, (y * width + x) * 3, (y * width + x) * 3 + 3);
  }
  return out;
}

async function list() {
  const rows = [];
  for (const { file } of PICTURES) {
    const bytes = await readFile(new URL(file, FOLDER)).catch(() => null);
    if (bytes !== null) rows.push({ file, sha256: createHash('sha256').update(bytes).digest('hex'), bytes: bytes.length });
  }
  await writeFile(new URL('pictures.json', FOLDER), `[\n${rows.map((row) => `  ${JSON.stringify(row)}`).join(',\n')}\n]\n`);
}

const wanted = process.argv.slice(2);
await mkdir(FOLDER, { recursive: true });
for (const picture of PICTURES) {
  if (wanted.length === 0 || wanted.some((beginning) => picture.file.startsWith(beginning))) await draw(picture);
}
await list();
