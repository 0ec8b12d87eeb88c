import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const ROOT = new URL('../../../', import.meta.url);
const sha256 = (file: string) =>
  createHash('sha256')
    .update(readFileSync(new URL(file, ROOT)))
    .digest('hex');

test('the engine that is served is the pinned package’s own', () => {
  expect(sha256('static/voice/soundswallower.web.wasm')).toBe(sha256('node_modules/soundswallower/soundswallower.web.wasm'));
});

// Of Debian's pocketsphinx-en-us 0.8+5prealpha+1-15, folder usr/share/pocketsphinx/model/en-us/en-us.
test.each([
  ['mdef', '2360f9a86889c1cfee8bd618a0269387911e5fb2920a594f506b18b8c79683b0'],
  ['means', '832019e32cac12eb318964f96f469034acb12d0348eeddc3831831a100cb4dd4'],
  ['variances', 'b00d696f85e96834fc10f8e5f06428d8c4db6bffdbe5845b6f69bf6efbc48fa5'],
  ['sendump', '8c9564c0d5bef69ca9d9bf1014abe162f071644cf02cf1fa8a483c3dc165a7a8'],
  ['transition_matrices', 'c1f7f28ea43177be734be1f88bd7f1b9a853d0e660f8599c67c6eaeca8bb539a'],
])('the acoustic model: %s is the published file', (name, hash) => {
  expect(sha256(`static/voice/en-us/${name}`)).toBe(hash);
});

test('their licences are shipped beside them', () => {
  const text = readFileSync(new URL('static/voice/licences.txt', ROOT), 'utf8');
  for (const holder of [
    'Carnegie Mellon University',
    'Alpha Cephei',
    'SoundSwallower',
    'CMU Pronouncing Dictionary',
    'Permission is hereby granted',
  ]) {
    expect(text).toContain(holder);
  }
});
