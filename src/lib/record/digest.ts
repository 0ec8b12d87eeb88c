import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** What is written about a file's bytes: length, CRC-32 for the ZIP, SHA-256 (lower-case hex) for the manifest. */
export interface Digest {
  readonly bytes: number;
  readonly crc32: number;
  readonly sha256: string;
}

/** CRC-32 of ISO 3309 and ITU-T V.42, reflected polynomial 0xEDB88320, as ZIP uses it (APPNOTE 4.4.7). */
const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

/** Takes bytes piece by piece, so that no file need be in memory as a whole. */
export class Digester {
  readonly #sha256 = sha256.create();
  #crc = 0xffffffff;
  #bytes = 0;

  take(piece: Uint8Array): void {
    this.#sha256.update(piece);
    let crc = this.#crc;
    for (let i = 0; i < piece.length; i++) crc = CRC_TABLE[(crc ^ piece[i]!) & 0xff]! ^ (crc >>> 8);
    this.#crc = crc;
    this.#bytes += piece.length;
  }

  /** To be called once, after the last piece. */
  done(): Digest {
    return { bytes: this.#bytes, crc32: (this.#crc ^ 0xffffffff) >>> 0, sha256: bytesToHex(this.#sha256.digest()) };
  }
}

/** Bytes of a Blob held in memory at a time. */
export const PIECE_BYTES = 1024 * 1024;

/** The bytes of a Blob in order, piece by piece; by slices, because not every engine iterates a stream. */
export async function* pieces(blob: Blob): AsyncGenerator<Uint8Array<ArrayBuffer>> {
  for (let at = 0; at < blob.size; at += PIECE_BYTES) {
    yield new Uint8Array(await blob.slice(at, at + PIECE_BYTES).arrayBuffer());
  }
}

export async function digestOf(blob: Blob): Promise<Digest> {
  const digester = new Digester();
  for await (const piece of pieces(blob)) digester.take(piece);
  return digester.done();
}

/** True when two Blobs hold the same bytes; stops at the first piece that differs. */
export async function sameBytes(a: Blob, b: Blob): Promise<boolean> {
  if (a.size !== b.size) return false;
  for (let at = 0; at < a.size; at += PIECE_BYTES) {
    const [x, y] = await Promise.all([a, b].map(async (blob) => new Uint8Array(await blob.slice(at, at + PIECE_BYTES).arrayBuffer())));
    if (x!.length !== y!.length || x!.some((byte, i) => byte !== y![i])) return false;
  }
  return true;
}
