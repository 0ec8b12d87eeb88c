import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { merkleRoot } from '#lib/record/merkle.ts';

const sha = (...parts: Buffer[]) => createHash('sha256').update(Buffer.concat(parts)).digest();
const leaf = (hex: string) => sha(Buffer.from([0]), Buffer.from(hex, 'hex'));
const node = (a: Buffer, b: Buffer) => sha(Buffer.from([1]), a, b);
const hashes = Array.from({ length: 7 }, (_, i) => sha(Buffer.from([i])).toString('hex'));
const [a, b, c, d, e, f, g] = hashes.map(leaf) as [Buffer, Buffer, Buffer, Buffer, Buffer, Buffer, Buffer];

// The trees as RFC 6962, 2.1.3 draws them.
it.each([
  [0, sha()],
  [1, a],
  [2, node(a, b)],
  [3, node(node(a, b), c)],
  [4, node(node(a, b), node(c, d))],
  [5, node(node(node(a, b), node(c, d)), e)],
  [6, node(node(node(a, b), node(c, d)), node(e, f))],
  [7, node(node(node(a, b), node(c, d)), node(node(e, f), g))],
] as const)('of %i hashes', (count, root) => {
  expect(merkleRoot(hashes.slice(0, count))).toBe(root.toString('hex'));
});
