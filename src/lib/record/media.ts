/** Media types the book keeps, told by their first bytes and never by a file's name. */
export type MediaType = 'image/jpeg' | 'image/png' | 'image/webp' | 'image/heic' | 'application/pdf' | 'audio/wav';

export interface Media {
  readonly type: MediaType;
  /** Pixels as the header states them, before any orientation tag; null where the header was not understood. */
  readonly width: number | null;
  readonly height: number | null;
  /** False when a JPEG, PNG, WebP or WAV ends before it says it does: kept as evidence, shown as damaged. Of the others it cannot be told. */
  readonly whole: boolean;
}

const END_OF_IMAGE = [0xff, 0xd9] as const;
/** The type of a PNG's last chunk, in ASCII. */
const IEND = [0x49, 0x45, 0x4e, 0x44] as const;
/** Beyond this a picture is kept but never opened on a phone: decoded it takes 4 bytes a pixel, and 256 MB already end many a page. */
const SHOWN_PIXELS_MAX = 64_000_000;

export function isTooLargeToShow({ width, height }: Media): boolean {
  return width !== null && height !== null && width * height > SHOWN_PIXELS_MAX;
}

/** Whether it is a photo, and neither a paper nor a sound. */
export function isPicture({ type }: Media): boolean {
  return type.startsWith('image/');
}

const HEIC_BRANDS = new Set(['heic', 'heix', 'hevc', 'heim', 'heis', 'mif1', 'msf1']);

/** What a file is, by magic bytes and header (JPEG ITU T.81, PNG RFC 2083, WebP RFC 9649, HEIF ISO/IEC 23008-12, WAV as in wav.ts), or null. */
export function sniff(bytes: Uint8Array): Media | null {
  if (bytes.length < 12) return null;
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return jpeg(bytes);
  if (ascii(bytes, 0, 8) === '\x89PNG\r\n\x1a\n') {
    const sized = bytes.length >= 24;
    return {
      type: 'image/png',
      width: sized ? u32(bytes, 16) : null,
      height: sized ? u32(bytes, 20) : null,
      whole: holds(bytes, 24, IEND),
    };
  }
  const form = ascii(bytes, 0, 4) === 'RIFF' ? ascii(bytes, 8, 4) : null;
  if (form === 'WEBP' || form === 'WAVE') {
    // The size in the header counts what follows it, lowest byte first.
    const size = new DataView(bytes.buffer, bytes.byteOffset).getUint32(4, true);
    return { type: form === 'WEBP' ? 'image/webp' : 'audio/wav', width: null, height: null, whole: bytes.length >= 8 + size };
  }
  if (ascii(bytes, 4, 4) === 'ftyp' && HEIC_BRANDS.has(ascii(bytes, 8, 4)))
    return { type: 'image/heic', width: null, height: null, whole: true };
  if (ascii(bytes, 0, 5) === '%PDF-') return { type: 'application/pdf', width: null, height: null, whole: true };
  return null;
}

/** Walks the marker segments to the frame header and the scan; what follows the scan must hold an end-of-image marker. */
function jpeg(bytes: Uint8Array): Media {
  let width: number | null = null;
  let height: number | null = null;
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1]!;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = u16(bytes, at + 2);
    const isFrame = marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;
    if (isFrame && at + 9 <= bytes.length) {
      height = u16(bytes, at + 5);
      width = u16(bytes, at + 7);
    }
    if (marker === 0xda) return { type: 'image/jpeg', width, height, whole: holds(bytes, at + 2 + length, END_OF_IMAGE) };
    at += 2 + length;
  }
  return { type: 'image/jpeg', width, height, whole: false };
}

/** Looks for an end mark from the back, where it stands in a whole file. */
function holds(bytes: Uint8Array, from: number, mark: readonly [number, ...number[]]): boolean {
  for (let at = bytes.lastIndexOf(mark[0]); at >= from; at = bytes.lastIndexOf(mark[0], at - 1)) {
    if (mark.every((byte, i) => bytes[at + i] === byte)) return true;
  }
  return false;
}

function ascii(bytes: Uint8Array, at: number, length: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + length));
}

function u16(bytes: Uint8Array, at: number): number {
  return (bytes[at]! << 8) | bytes[at + 1]!;
}

function u32(bytes: Uint8Array, at: number): number {
  return u16(bytes, at) * 65_536 + u16(bytes, at + 2);
}
