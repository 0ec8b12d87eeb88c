import { ed25519 } from '@noble/curves/ed25519.js';
import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import type { Signer } from './sign.ts';

/** A signer around a raw 32-byte secret key (RFC 8032), for the terminal, the example and phones without a key store. */
export function ed25519Signer(secretKey: Uint8Array): Signer {
  return {
    publicKey: bytesToHex(ed25519.getPublicKey(secretKey)),
    whyNone: null,
    sign: async (hash) => bytesToHex(ed25519.sign(hash, secretKey)),
  };
}

/** True when `signature` (hex) over `message` verifies under `publicKey` (hex). Malformed input is simply not valid. */
export function ed25519Verify(publicKey: string, message: Uint8Array, signature: string): boolean {
  try {
    // Strict RFC 8032 rules (not ZIP-215): what any other implementation accepts ten years from now.
    return ed25519.verify(hexToBytes(signature), message, hexToBytes(publicKey), { zip215: false });
  } catch {
    return false;
  }
}
