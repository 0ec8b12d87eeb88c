import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { TAG } from '#lib/record/archive.ts';
import { KINDS } from '#lib/record/kinds.ts';

const format = readFileSync(new URL('../../../docs/format.md', import.meta.url), 'utf8');

describe('docs/format.md has a row for', () => {
  for (const kind of KINDS) it(`the kind ${kind}`, () => expect(format).toMatch(new RegExp(`^\\| \`${kind}\` \\|`, 'm')));
  for (const label of Object.values(TAG)) it(`the tag ${label}`, () => expect(format).toMatch(new RegExp(`^\\| \`${label}\` \\|`, 'm')));
});
