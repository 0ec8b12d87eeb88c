/** Signs the 32 bytes of an entry's hash. The key itself stays with whoever implements this (device, tests, example). */
export interface Signer {
  /** Public key, 64 hex digits (RFC 8032), or null with the reason when this device cannot hold a key. */
  readonly publicKey: string | null;
  readonly whyNone: 'no-key-store' | null;
  /** 128 hex digits, or null when publicKey is null. */
  sign(hash: Uint8Array): Promise<string | null>;
}
