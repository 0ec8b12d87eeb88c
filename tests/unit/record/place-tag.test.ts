import sharp from 'sharp';
import { expect, it } from 'vitest';
import { mayTellPlace } from '#lib/record/place-tag.ts';

const picture = () => sharp({ create: { width: 32, height: 24, channels: 3, background: '#876' } });
const time = { IFD2: { DateTimeOriginal: '2026:03:02 10:02:03' } };
const gps = { IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '41/1 52/1 0/1', GPSLongitudeRef: 'W', GPSLongitude: '87/1 37/1 0/1' } };

it.each([
  ['a JPEG without tags', picture().jpeg().toBuffer(), false],
  ['a JPEG that says when', picture().withExif(time).jpeg().toBuffer(), false],
  [
    'a JPEG that says where',
    picture()
      .withExif({ ...time, ...gps })
      .jpeg()
      .toBuffer(),
    true,
  ],
  ['a PNG without tags', picture().png().toBuffer(), false],
  ['a PNG with tags of any kind', picture().withExif(time).png().toBuffer(), true],
  ['a WebP that says where', picture().withExif(gps).webp().toBuffer(), true],
] as const)('%s', async (_, bytes, tells) => {
  expect(mayTellPlace(new Uint8Array(await bytes))).toBe(tells);
});

it('of a file cut anywhere it never throws, and never lets a place through that the whole file tells', async () => {
  const bytes = new Uint8Array(await picture().withExif(gps).jpeg().toBuffer());
  const scan = bytes.findIndex((byte, i) => byte === 0xff && bytes[i + 1] === 0xda);
  for (let end = 0; end < scan; end++) expect(typeof mayTellPlace(bytes.subarray(0, end))).toBe('boolean');
});
