import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { TAG } from '#lib/record/archive.ts';
import { ALL_UNITS } from '#lib/measure/dimension.ts';
import { KINDS, SCHEMAS, type Kind } from '#lib/record/kinds.ts';
import { MEASURES } from '#lib/record/kinds/reading.ts';

const format = readFileSync(new URL('../../../docs/format.md', import.meta.url), 'utf8');

describe('docs/format.md has a row for', () => {
  for (const kind of KINDS) it(`the kind ${kind}`, () => expect(format).toMatch(new RegExp(`^\\| \`${kind}\` \\|`, 'm')));
  for (const label of Object.values(TAG)) it(`the tag ${label}`, () => expect(format).toMatch(new RegExp(`^\\| \`${label}\` \\|`, 'm')));
});

const rowOf = (kind: Kind) => new RegExp(`^\\| \`${kind}\` \\|.*$`, 'm').exec(format.slice(format.indexOf('### Kinds')))![0];
/** The codes a field may say, through `optional`, `nullable` and lists. */
function codesOf(schema: unknown): readonly string[] {
  const { def, options } = schema as { def: { type: string; innerType?: unknown; element?: unknown }; options?: readonly string[] };
  const inner = def.innerType ?? def.element;
  return def.type === 'enum' ? (options ?? []) : inner === undefined ? [] : codesOf(inner);
}
/** Each field, and those of each thing in a list of a drawing. */
function fieldsIn(shape: object): [string, unknown][] {
  return Object.entries(shape).flatMap(([field, schema]: [string, unknown]): [string, unknown][] => {
    const { element } = (schema as { def: { element?: { shape?: object } } }).def;
    return [[field, schema], ...(element?.shape === undefined ? [] : fieldsIn(element.shape))];
  });
}
const optional = (schema: unknown) => (schema as { def: { type: string } }).def.type === 'optional';

describe('each field of each kind stands in its row, marked where it may be absent', () => {
  for (const kind of KINDS)
    it(kind, () => {
      const missing = (kind === 'drawing' ? fieldsIn(SCHEMAS[kind].shape) : Object.entries<unknown>(SCHEMAS[kind].shape)).filter(
        ([field, schema]) => !rowOf(kind).includes(`\`${field}${optional(schema) ? '?' : ''}\``),
      );
      expect(missing.map(([field]) => field)).toEqual([]);
    });
});

describe('each code a field may say stands on the page', () => {
  const elsewhere: readonly string[] = ['unit', 'step', 'steps', 'scale', 'ceiling', 'what', 'want', 'places'];
  for (const kind of KINDS)
    it(kind, () => {
      const codes = fieldsIn(SCHEMAS[kind].shape).flatMap(([field, schema]) =>
        codesOf(schema).map((code) => ({ code, in: elsewhere.includes(field) ? format : rowOf(kind) })),
      );
      expect(codes.filter((one) => !one.in.includes(`\`${one.code}\``)).map(({ code }) => code)).toEqual([]);
    });
  it('units and measures', () => {
    expect([...ALL_UNITS, ...MEASURES].filter((code) => !format.includes(`\`${code}\``))).toEqual([]);
  });
});
