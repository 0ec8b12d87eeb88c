import { hex } from './hex.ts';

/**
 * A random UUID (RFC 9562, version 4). Made by hand because the browser's own maker is missing on addresses without https,
 * where a crew may well try the book on a local network.
 */
export function randomId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6]! & 0x0f) | 0x40;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  return hex(bytes).replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}
