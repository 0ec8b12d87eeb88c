import { isPicture, isTooLargeToShow, sniff, type Media } from '#lib/record/media.ts';
import { wavOf } from '#lib/record/wav.ts';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';

const raw = await sharp({
  create: { width: 96, height: 64, channels: 3, background: '#8a8a88', noise: { type: 'gaussian', mean: 128, sigma: 40 } },
})
  .png()
  .toBuffer();
const encoded = async (format: 'jpeg' | 'png' | 'webp', options: object = {}) =>
  new Uint8Array(await sharp(raw).toFormat(format, options).toBuffer());
const bytesOf = (...parts: (string | readonly number[] | Uint8Array)[]) =>
  Uint8Array.from(parts.flatMap((part) => (typeof part === 'string' ? [...part].map((c) => c.charCodeAt(0)) : [...part])));
const zeros = (n: number) => new Array<number>(n).fill(0);

const jpeg = await encoded('jpeg');
const png = await encoded('png');
const webp = await encoded('webp');
const wav = wavOf([Uint8Array.from({ length: 640 }, (_, i) => i & 255)]);
/** As cameras write it: a whole small JPEG, end marker and all, in an APP1 segment before the picture. */
const thumbnail = await encoded('jpeg', { quality: 20 });
const withThumbnail = bytesOf(
  jpeg.subarray(0, 2),
  [0xff, 0xe1, (thumbnail.length + 2) >> 8, (thumbnail.length + 2) & 0xff],
  thumbnail,
  jpeg.subarray(2),
);

// First bytes: ITU T.81 annex B, RFC 2083 section 3.1, RFC 9649 section 2, ISO/IEC 23008-12 (brands), ISO 32000-1 section 7.5.2, and for
// WAV Multimedia Programming Interface and Data Specifications 1.0 (Python's own reader agrees: wav.test.ts).
const HEIC = (brand: string) => bytesOf([0, 0, 0, 24], 'ftyp', brand, zeros(12));
test.each<[what: string, bytes: Uint8Array, media: Media | null]>([
  ['a JPEG', jpeg, { type: 'image/jpeg', width: 96, height: 64, whole: true }],
  ['a progressive JPEG', await encoded('jpeg', { progressive: true }), { type: 'image/jpeg', width: 96, height: 64, whole: true }],
  ['a JPEG with a thumbnail', withThumbnail, { type: 'image/jpeg', width: 96, height: 64, whole: true }],
  [
    'a JPEG with fill bytes',
    bytesOf(jpeg.subarray(0, 2), [0xff, 0xff], jpeg.subarray(2)),
    { type: 'image/jpeg', width: 96, height: 64, whole: true },
  ],
  ['a JPEG with something after its end', bytesOf(jpeg, zeros(40)), { type: 'image/jpeg', width: 96, height: 64, whole: true }],
  ['a PNG', png, { type: 'image/png', width: 96, height: 64, whole: true }],
  ['a WebP', webp, { type: 'image/webp', width: null, height: null, whole: true }],
  ['a HEIC', HEIC('heic'), { type: 'image/heic', width: null, height: null, whole: true }],
  ['a HEIF of another brand', HEIC('mif1'), { type: 'image/heic', width: null, height: null, whole: true }],
  ['a PDF', bytesOf('%PDF-1.7\n%', zeros(4)), { type: 'application/pdf', width: null, height: null, whole: true }],
  ['a film in the same container', HEIC('isom'), null],
  ['a PNG garbled by text transfer', bytesOf([0x89], 'PNG\n\x1a\n', png.subarray(8)), null],
  ['a WAV', wav, { type: 'audio/wav', width: null, height: null, whole: true }],
  ['a WAV cut short', wav.subarray(0, 100), { type: 'audio/wav', width: null, height: null, whole: false }],
  ['a film in the same container as a WAV', bytesOf('RIFF', [4, 0, 0, 0], 'AVI ', zeros(8)), null],
  ['a GIF', bytesOf('GIF89a', zeros(20)), null],
  ['a drawing in markup', bytesOf('<svg xmlns="http://www.w3.org/2000/svg">'), null],
  ['nothing', bytesOf(), null],
  ['eleven bytes of a JPEG', jpeg.subarray(0, 11), null],
  ['twelve bytes of a JPEG', jpeg.subarray(0, 12), { type: 'image/jpeg', width: null, height: null, whole: false }],
  ['twelve bytes of a PNG', png.subarray(0, 12), { type: 'image/png', width: null, height: null, whole: false }],
  ['twelve bytes of a WebP', webp.subarray(0, 12), { type: 'image/webp', width: null, height: null, whole: false }],
  ['a part of a larger buffer', bytesOf(zeros(9), webp).subarray(9), { type: 'image/webp', width: null, height: null, whole: true }],
  [
    'a part of a larger buffer, cut',
    bytesOf(zeros(9), webp).subarray(9, -8),
    { type: 'image/webp', width: null, height: null, whole: false },
  ],
])('%s', (_, bytes, media) => {
  expect(sniff(bytes)).toEqual(media);
});

test.each<[what: string, bytes: Uint8Array, pixels: number]>([
  ['a JPEG of 12,000 x 9,000', bytesOf([0xff, 0xd8, 0xff, 0xc0, 0, 11, 8, 0x23, 0x28, 0x2e, 0xe0, 1, 1, 0x11, 0]), 108_000_000],
  ['a JPEG as large as a header can say', bytesOf([0xff, 0xd8, 0xff, 0xc2, 0, 11, 8, 0xff, 0xff, 0xff, 0xff, 1, 1, 0x11, 0]), 65_535 ** 2],
  [
    'a PNG of 60,000 x 60,000',
    bytesOf([0x89], 'PNG\r\n\x1a\n', [0, 0, 0, 13], 'IHDR', [0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60], zeros(9)),
    3_600_000_000,
  ],
  [
    'a PNG as large as a header can say',
    bytesOf([0x89], 'PNG\r\n\x1a\n', [0, 0, 0, 13], 'IHDR', [0xff, 0xff, 0xff, 0xff, 0, 0, 0, 1], zeros(9)),
    4_294_967_295,
  ],
])('%s states its size before anything is decoded', (_, bytes, pixels) => {
  const media = sniff(bytes);
  expect((media?.width ?? 0) * (media?.height ?? 0)).toBe(pixels);
});

// The smallest picture that takes more than 256 MB when decoded at 4 bytes a pixel has 64,000,001.
test.each<[width: number | null, height: number | null, tooLarge: boolean]>([
  [8_000, 8_000, false],
  [8_000, 8_001, true],
  [65_535, 65_535, true],
  [null, null, false],
])('%j x %j is too large to show: %j', (width, height, tooLarge) => {
  expect(isTooLargeToShow({ type: 'image/jpeg', width, height, whole: true })).toBe(tooLarge);
});

describe.each([
  ['JPEG', jpeg],
  ['progressive JPEG', await encoded('jpeg', { progressive: true })],
  ['JPEG with a thumbnail', withThumbnail],
  ['PNG', png],
  ['WebP', webp],
  ['WAV', wav],
])('a %s cut short', (_, bytes) => {
  test.each([10, 20, 30, 40, 50, 60, 70, 80, 90])('to %d % is not whole', (percent) => {
    const cut = sniff(bytes.subarray(0, Math.floor((bytes.length * percent) / 100)));
    expect(cut).toMatchObject({ type: sniff(bytes)!.type, whole: false });
  });
  test('by eight bytes is not whole', () => {
    expect(sniff(bytes.subarray(0, -8))?.whole).toBe(false);
  });
});

test.each<[what: string, picture: boolean, bytes: Uint8Array]>([
  ['a JPEG', true, jpeg],
  ['a PNG', true, png],
  ['a WebP', true, webp],
  ['a HEIC', true, HEIC('heic')],
  ['a PDF', false, bytesOf('%PDF-1.7\n%', zeros(4))],
  ['a WAV', false, wav],
])('%s is a picture: %j', (_, picture, bytes) => {
  expect(isPicture(sniff(bytes)!)).toBe(picture);
});

test('no bytes make it throw, and no size is below zero', () => {
  const starts = fc.constantFrom<number[][]>(
    [],
    [...jpeg.subarray(0, 4)],
    [...png.subarray(0, 8)],
    [...webp.subarray(0, 12)],
    [0xff, 0xd8, 0xff, 0xff],
    [...jpeg.subarray(0, 200)],
  );
  const marks = fc.array(fc.constantFrom(0xff, 0xd8, 0xd9, 0xda, 0xc0, 0, 2), { maxLength: 60 });
  fc.assert(
    fc.property(starts, fc.oneof(fc.uint8Array({ maxLength: 60 }), marks), (start, rest) => {
      const media = sniff(bytesOf(start, [...rest]));
      expect((media?.width ?? 0) >= 0 && (media?.height ?? 0) >= 0).toBe(true);
    }),
    { seed: 20260302, numRuns: 2_000 },
  );
});
