import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, concatBytes, hexToBytes } from '@noble/hashes/utils.js';

const LEAF = Uint8Array.of(0);
const NODE = Uint8Array.of(1);

/**
 * The Merkle tree hash of RFC 6962, 2.1, over 32-byte hashes as its leaves, as 64 hex digits: one number that fixes all of them and their
 * order. A leaf is SHA-256(0x00, hash), a node SHA-256(0x01, left, right), split at the largest power of two below the count; of nothing
 * it is the SHA-256 of nothing.
 */
export function merkleRoot(hashes: readonly string[]): string {
  return bytesToHex(rootOf(hashes.map(hexToBytes)));
}

function rootOf(hashes: readonly Uint8Array[]): Uint8Array {
  if (hashes.length === 0) return sha256(new Uint8Array());
  if (hashes.length === 1) return sha256(concatBytes(LEAF, hashes[0]!));
  const split = 2 ** Math.floor(Math.log2(hashes.length - 1));
  return sha256(concatBytes(NODE, rootOf(hashes.slice(0, split)), rootOf(hashes.slice(split))));
}
