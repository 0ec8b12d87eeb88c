/** Tag of TIFF's first directory that leads to the directory of GPS tags (Exif 2.32, 4.6.3). */
const GPS_POINTER = 0x8825;
const APP1 = 0xe1;
const START_OF_SCAN = 0xda;

/**
 * Whether a photo's file may tell where it was taken. A JPEG is read tag by tag: Exif with a GPS directory, or XMP that names GPS. In
 * any other file that carries Exif or XMP at all the answer is yes, since nothing here reads it.
 */
export function mayTellPlace(bytes: Uint8Array): boolean {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return ['Exif', 'eXIf', 'EXIF', 'xmpmeta'].some((mark) => includes(bytes, mark));
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    if (marker === START_OF_SCAN) return false;
    const length = (bytes[at + 2]! << 8) | bytes[at + 3]!;
    const segment = bytes.subarray(at + 4, at + 2 + length);
    if (marker === APP1 && (hasGpsDirectory(segment) || (!includes(segment.subarray(0, 6), 'Exif') && includes(segment, 'GPS'))))
      return true;
    at += 2 + Math.max(2, length);
  }
  // Tags that run past what can be followed are not vouched for.
  return at + 4 <= bytes.length && includes(bytes.subarray(at), 'GPS');
}

function hasGpsDirectory(segment: Uint8Array): boolean {
  if (!includes(segment.subarray(0, 4), 'Exif') || segment.length < 14) return false;
  const tiff = segment.subarray(6);
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength);
  const little = tiff[0] === 0x49;
  const directory = view.getUint32(4, little);
  if (directory + 2 > tiff.length) return false;
  const count = view.getUint16(directory, little);
  for (let i = 0; i < count && directory + 2 + 12 * (i + 1) <= tiff.length; i++)
    if (view.getUint16(directory + 2 + 12 * i, little) === GPS_POINTER) return true;
  return false;
}

function includes(bytes: Uint8Array, text: string): boolean {
  const codes = [...text].map((character) => character.charCodeAt(0));
  for (let at = bytes.indexOf(codes[0]!); at >= 0 && at + codes.length <= bytes.length; at = bytes.indexOf(codes[0]!, at + 1))
    if (codes.every((code, i) => bytes[at + i] === code)) return true;
  return false;
}
