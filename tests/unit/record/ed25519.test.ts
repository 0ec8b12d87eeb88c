import { bytesToHex, hexToBytes } from '@noble/hashes/utils.js';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ed25519Signer, ed25519Verify } from '#lib/record/ed25519.ts';

interface Vector {
  test: string;
  secret: string;
  public: string;
  message: string;
  signature: string;
}
const vectors = JSON.parse(readFileSync(new URL('../../vectors/rfc8032/section-7-1.json', import.meta.url), 'utf8')) as Vector[];

describe('RFC 8032 section 7.1', () => {
  for (const vector of vectors) {
    it(`test ${vector.test}`, async () => {
      const signer = ed25519Signer(hexToBytes(vector.secret));
      const message = hexToBytes(vector.message);
      expect(signer.publicKey).toBe(vector.public);
      expect(await signer.sign(message)).toBe(vector.signature);
      expect(ed25519Verify(vector.public, message, vector.signature)).toBe(true);
    });
  }
});

describe('what is no valid signature is not valid, and throws nothing', () => {
  const { public: key, signature } = vectors[1]!;
  const message = hexToBytes('72');
  // Order of the group, RFC 8032 section 5.1: S + L must be refused, or one signature could be written in two ways.
  const L = 2n ** 252n + 27742317777372353535851937790883648493n;
  const littleEndian = (hex: string) => BigInt(`0x${bytesToHex(hexToBytes(hex).reverse())}`);
  const shifted = (littleEndian(signature.slice(64)) + L).toString(16).padStart(64, '0');
  const cases: [name: string, key: string, message: Uint8Array, signature: string][] = [
    ['another message', key, hexToBytes('73'), signature],
    ['another key', vectors[2]!.public, message, signature],
    ['one bit of the signature', key, message, `${signature.slice(0, -1)}1`],
    ['S + L', key, message, signature.slice(0, 64) + bytesToHex(hexToBytes(shifted).reverse())],
    ['a short signature', key, message, signature.slice(2)],
    ['no hex', key, message, 'zz'.repeat(64)],
    // The neutral element as key and R, S = 0: ZIP-215 accepts it over any message, RFC 8032 libraries differ.
    ['a key of small order', `01${'00'.repeat(31)}`, message, `01${'00'.repeat(63)}`],
    ['an empty key', '', message, signature],
  ];
  for (const [name, publicKey, text, sig] of cases) it(name, () => expect(ed25519Verify(publicKey, text, sig)).toBe(false));
});
