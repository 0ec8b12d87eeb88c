import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** SHA-256 (FIPS 180-4) of bytes, lower-case hex. */
export function sha256Hex(bytes: Uint8Array): string {
  return bytesToHex(sha256(bytes));
}

/** SHA-256 of the UTF-8 bytes of a text, lower-case hex. */
export function sha256HexOfText(text: string): string {
  return sha256Hex(utf8ToBytes(text));
}

/** SHA-256 of bytes that come piece by piece; `done` is called once, after the last. */
export function hasher(): { take: (piece: Uint8Array) => void; done: () => string } {
  const hash = sha256.create();
  return { take: (piece) => void hash.update(piece), done: () => bytesToHex(hash.digest()) };
}

export const HASH_PATTERN = /^[0-9a-f]{64}$/;
