import canonicalize from 'canonicalize';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { canonicalText } from '#lib/record/canonical.ts';

const vectors = new URL('../../vectors/rfc8785/', import.meta.url);
const file = (path: string) => readFileSync(new URL(path, vectors), 'utf8');

describe('RFC 8785 vectors of the reference repository and the RFC', () => {
  // Ours refuses what is no whole number, on purpose; the RFC's own function is held to all of them.
  const FRACTIONS = new Set(['values.json', 'rfc-3-2-2.json']);
  for (const name of readdirSync(new URL('input/', vectors))) {
    it(name, () => {
      const value: unknown = JSON.parse(file(`input/${name}`));
      expect(canonicalize(value)).toBe(file(`output/${name}`));
      if (FRACTIONS.has(name)) expect(() => canonicalText(value)).toThrow('expected a whole number');
      else expect(canonicalText(value)).toBe(file(`output/${name}`));
    });
  }
});

describe('what may not be hashed is refused with its path', () => {
  const cases: [name: string, value: unknown, message: string][] = [
    ['a fraction', { a: [1, 0.5] }, '$.a[1]: expected a whole number, got 0.5'],
    ['beyond 2^53 - 1', { a: 2 ** 53 }, '$.a: expected a whole number'],
    ['NaN', { a: NaN }, '$.a: expected a whole number'],
    ['a lone surrogate', { a: 'x\ud800' }, '$.a: expected well-formed text'],
    ['a lone surrogate in a key', { 'x\udc00': 1 }, '$: expected a well-formed key'],
    ['undefined in a list', { a: [undefined] }, '$.a[0]: expected a JSON value'],
    ['a function', { a: () => 1 }, '$.a: expected a JSON value'],
    ['undefined', undefined, '$: expected a JSON value'],
  ];
  for (const [name, value, message] of cases) it(name, () => expect(() => canonicalText(value)).toThrow(message));
});

it('-0 is written 0, and an absent field is no field', () => {
  expect(canonicalText({ b: -0, a: undefined })).toBe('{"b":0}');
});
