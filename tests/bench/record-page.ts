import { sha256Hex } from '#lib/record/hash.ts';
import type { Entry } from '#lib/record/entry.ts';
import { buildRecord, type RecordInput } from '#lib/report/build.ts';
import { printed, type DerivedPicture } from '#lib/work/print.ts';
import { chain } from '../fixtures/log.ts';

/** Fonts as base64, since this page has no address to fetch them from. */
export interface Fonts {
  readonly text: string;
  readonly strong: string;
}

const unpacked = (base64: string) => Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));

/** A photograph of grain, as a camera's are: it does not compress away. */
async function grain(width: number, height: number, quality: number): Promise<Uint8Array<ArrayBuffer>> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  const pixels = context.createImageData(width, height);
  for (let i = 0; i < pixels.data.length; i += 4) {
    const level = 128 + 40 * Math.sin(i / 4_000) + Math.random() * 22;
    pixels.data.set([level, level - 6, level - 12, 255], i);
  }
  context.putImageData(pixels, 0, 0);
  return new Uint8Array(await (await canvas.convertToBlob({ type: 'image/jpeg', quality })).arrayBuffer());
}

/** As many photos as asked for of one picture: bytes after its end make each another file. */
function photos(jpeg: Uint8Array, count: number): { sha256: string; body: Blob }[] {
  return Array.from({ length: count }, (_, i) => {
    const bytes = new Uint8Array(jpeg.length + 4);
    bytes.set(jpeg);
    new DataView(bytes.buffer).setUint32(jpeg.length, i);
    return { sha256: sha256Hex(bytes), body: new Blob([bytes], { type: 'image/jpeg' }) };
  });
}

function logOf(originals: readonly string[]): Entry[] {
  return chain('phone', [
    { kind: 'job', data: { name: 'Bench', address: '', units: 'in', lang: 'en' } },
    { kind: 'surface', data: { surface: 'north', name: 'North wall', place: 'wall', system: 'sheet' } },
    ...originals.map((sha256) => ({
      kind: 'shot',
      data: { picture: { sha256, bytes: 1, type: 'image/jpeg' }, from: 'viewfinder', surface: 'north' },
    })),
  ]);
}

async function build(pictures: readonly DerivedPicture[], entries: readonly Entry[], fonts: Fonts): Promise<Blob> {
  const input: RecordInput = {
    entries,
    unreadable: 0,
    built: { utc: '2026-03-04T08:00:00.000Z', offsetMin: -360, zone: '', monoMs: 0, session: '' },
    by: 'ana',
    locale: 'en',
    paper: 'letter',
    fonts: { text: unpacked(fonts.text), strong: unpacked(fonts.strong) },
    pictures: new Map(
      pictures.map(({ made, body }) => [
        made.of,
        { sha256: made.sha256, width: made.width, height: made.height, bytes: async () => new Uint8Array(await body.arrayBuffer()) },
      ]),
    ),
  };
  return (await buildRecord(input)).pdf.blob;
}

/** Pictures made before, printed, in ms, beside reading and joining the same bytes. */
export async function warm(count: number, fonts: Fonts): Promise<{ ours: number; ref: number; bytes: number }> {
  const small = photos(await grain(1200, 900, 0.62), count);
  const pictures = small.map(({ sha256, body }, i): DerivedPicture => ({
    made: { of: sha256Hex(Uint8Array.of(i & 255, i >> 8)), sha256, bytes: body.size, width: 1200, height: 900, encoder: 'bench' },
    body,
  }));
  const entries = logOf(pictures.map(({ made }) => made.of));
  const from = performance.now();
  const pdf = await build(pictures, entries, fonts);
  const between = performance.now();
  const parts: Uint8Array<ArrayBuffer>[] = [];
  for (const { body } of small) parts.push(new Uint8Array(await body.arrayBuffer()));
  if ((await new Blob(parts).arrayBuffer()).byteLength === 0) throw new Error('nothing joined');
  return { ours: between - from, ref: performance.now() - between, bytes: pdf.size };
}

/** Pictures made first, in ms, beside the same decodes and encodes alone. */
export async function cold(count: number, fonts: Fonts): Promise<{ ours: number; ref: number; bytes: number }> {
  const originals = photos(await grain(4000, 3000, 0.9), count);
  const entries = logOf(originals.map(({ sha256 }) => sha256));
  const from = performance.now();
  const pictures: DerivedPicture[] = [];
  for (const { sha256, body } of originals) pictures.push((await printed(sha256, body))!);
  const pdf = await build(pictures, entries, fonts);
  const between = performance.now();
  for (const { body } of originals) await alone(body);
  return { ours: between - from, ref: performance.now() - between, bytes: pdf.size };
}

/** Decode, resize, encode by the platform's own calls, at the quality the first try takes. */
async function alone(body: Blob): Promise<void> {
  const bitmap = await createImageBitmap(body, { imageOrientation: 'from-image' });
  const canvas = new OffscreenCanvas(1200, 900);
  const context = canvas.getContext('2d')!;
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, 1200, 900);
  bitmap.close();
  await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.75 });
}
