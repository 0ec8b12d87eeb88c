import { fail, ok, type Result } from '../result.ts';

/**
 * Sound as the book keeps it: 16,000 samples a second, 16 bit, one channel, uncompressed. Layout of the file: RIFF WAVE with the PCM
 * format 0x0001 (Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0, 1991; format number also RFC 2361).
 */
export const SOUND = { rateHz: 16_000, channels: 1, bits: 16 } as const;
export const SOUND_TYPE = 'audio/wav';

const SAMPLE_BYTES = SOUND.bits / 8;
export const SECOND_BYTES = SOUND.rateHz * SAMPLE_BYTES;

const HEADER_BYTES = 44;
const PCM = 0x0001;
/** The size in the header counts all but its first eight bytes, in 32 bits. */
const PCM_BYTES_MAX = 0xffff_ffff - (HEADER_BYTES - 8);

/** The 44 bytes before so many bytes of sound. Throws when they are no whole samples, or more than the format can count. */
export function wavHeader(pcmBytes: number): Uint8Array<ArrayBuffer> {
  if (!(pcmBytes >= 0 && pcmBytes <= PCM_BYTES_MAX && pcmBytes % SAMPLE_BYTES === 0))
    throw new RangeError(`pcmBytes: expected whole samples up to ${PCM_BYTES_MAX} bytes, got ${pcmBytes}`);
  const header = new Uint8Array(HEADER_BYTES);
  const view = new DataView(header.buffer);
  const ascii = (at: number, text: string) => header.set(new TextEncoder().encode(text), at);
  ascii(0, 'RIFF');
  view.setUint32(4, HEADER_BYTES - 8 + pcmBytes, true);
  ascii(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, SOUND.channels, true);
  view.setUint32(24, SOUND.rateHz, true);
  view.setUint32(28, SECOND_BYTES, true);
  view.setUint16(32, SAMPLE_BYTES, true);
  view.setUint16(34, SOUND.bits, true);
  ascii(36, 'data');
  view.setUint32(40, pcmBytes, true);
  return header;
}

/** A whole file of pieces of sound, one after the other. */
export function wavOf(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const pcmBytes = pieces.reduce((sum, piece) => sum + piece.length, 0);
  const file = new Uint8Array(HEADER_BYTES + pcmBytes);
  file.set(wavHeader(pcmBytes));
  let at = HEADER_BYTES;
  for (const piece of pieces) {
    file.set(piece, at);
    at += piece.length;
  }
  return file;
}

/** How long so many bytes of the book's own sound last, in whole milliseconds. */
export function soundMs(pcmBytes: number): number {
  return Math.floor((pcmBytes * 1000) / SECOND_BYTES);
}

export interface Wav {
  readonly rateHz: number;
  readonly channels: number;
  readonly bits: number;
  /** The samples, lowest byte first: as far as they are there. */
  readonly pcm: Uint8Array;
  readonly ms: number;
  /** False when the file ends before it says it does. */
  readonly whole: boolean;
}

/** not-a-wav: other first bytes. not-pcm: a coding other than plain samples. damaged: no format, no sound, or sizes that contradict each other. */
export type WavFault = { code: 'not-a-wav' } | { code: 'not-pcm'; format: number } | { code: 'damaged' };

/** Reads a WAV file of plain samples at any rate, also one whose end is missing. Chunks it does not know are passed over. */
export function readWav(bytes: Uint8Array): Result<Wav, WavFault> {
  if (!isWav(bytes)) return fail({ code: 'not-a-wav' });
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let format: { rateHz: number; channels: number; bits: number } | null = null;
  for (let at = 12; at + 8 <= bytes.length;) {
    const name = asciiAt(bytes, at);
    const size = view.getUint32(at + 4, true);
    const from = at + 8;
    if (name === 'fmt ') {
      if (size < 16 || from + 16 > bytes.length) return fail({ code: 'damaged' });
      const coding = view.getUint16(from, true);
      if (coding !== PCM) return fail({ code: 'not-pcm', format: coding });
      format = { channels: view.getUint16(from + 2, true), rateHz: view.getUint32(from + 4, true), bits: view.getUint16(from + 14, true) };
      const frame = (format.channels * format.bits) / 8;
      const agrees = view.getUint16(from + 12, true) === frame && view.getUint32(from + 8, true) === frame * format.rateHz;
      if (!agrees || frame < 1 || format.rateHz === 0) return fail({ code: 'damaged' });
    }
    if (name === 'data') {
      if (format === null) return fail({ code: 'damaged' });
      const frame = (format.channels * format.bits) / 8;
      const held = Math.min(size, bytes.length - from);
      const pcm = bytes.subarray(from, from + held - (held % frame));
      const ms = Math.floor((pcm.length / frame / format.rateHz) * 1000);
      return ok({ ...format, pcm, ms, whole: held === size && size % frame === 0 });
    }
    // Chunks start at even places.
    at = from + size + (size % 2);
  }
  return fail({ code: 'damaged' });
}

function isWav(bytes: Uint8Array): boolean {
  return bytes.length >= 12 && asciiAt(bytes, 0) === 'RIFF' && asciiAt(bytes, 8) === 'WAVE';
}

function asciiAt(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}
