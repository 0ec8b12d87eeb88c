import { globSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { circle, faultsOf, readRooms } from './house.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const read = (file: string) => readFileSync(`${ROOT}${file}`, 'utf8');
const rooms = readRooms(read('docs/house.md'));
const sources = globSync('src/**/*.{ts,js,mjs,svelte}', { cwd: ROOT, exclude: (name) => name.includes('compiled') })
  .map((file) => file.replaceAll('\\', '/'))
  .sort();

describe('the rooms', () => {
  it('depend on each other in one direction', () => {
    expect(rooms.length).toBeGreaterThan(10);
    expect(circle(rooms)).toBeNull();
    expect(circle([room('a', 'b'), room('b', 'c'), room('c', 'a')])).toEqual(['a', 'b', 'c', 'a']);
  });

  it('import what docs/house.md lets them', () => {
    expect(sources.length).toBeGreaterThan(50);
    expect(sources.flatMap((file) => faultsOf(file, read(file), rooms))).toEqual([]);
  });

  it('measure, trade and vision compile where there is no browser and no Node', () => {
    const files = sources.filter((file) => /^src\/lib\/(measure|trade|vision)\//.test(file));
    expect(compileBare(files.map((file) => `${ROOT}${file}`))).toEqual([]);
    expect(compileBare([`${ROOT}src/lib/device/settings-store.ts`]).join()).toContain('localStorage');
  });
});

describe('the check itself', () => {
  it.each([
    ['a room too far', 'src/lib/trade/a.ts', `import { x } from '#lib/record/entry.ts';`],
    ['only a type', 'src/lib/measure/a.ts', `import type { X } from '../trade/limits.ts';`],
    ['a type in place', 'src/lib/measure/a.ts', `let x: import('../trade/limits.ts').X;`],
    ['a dynamic import', 'src/lib/job/a.ts', `const x = await import('#lib/device/clock.ts');`],
    ['a re-export', 'src/lib/record/a.ts', `export { x } from '#lib/job/project.ts';`],
    ['a worker', 'src/lib/ui/a.ts', `new Worker(new URL('../work/preview.worker.ts', import.meta.url));`],
    ['a worker by query', 'src/lib/ui/a.ts', `import W from '#lib/work/preview.worker.ts?worker';`],
    [
      'the script of a component',
      'src/lib/ui/A.svelte',
      `<p>x</p>\n<script lang="ts">import { x } from '#lib/state/job.svelte.ts';</script>`,
    ],
    ['the markup of a component', 'src/lib/ui/A.svelte', `{#await import('#lib/state/job.svelte.ts')}x{/await}`],
    ['a private file', 'src/lib/state/a.ts', `import { x } from '#lib/device/store/_transaction.ts';`],
    ['a package', 'src/lib/trade/a.ts', `import * as z from 'zod';`],
    ['a package with a longer name', 'src/lib/record/a.ts', `import x from 'zodiac';`],
    ['Node in a page', 'src/routes/(book)/+page.ts', `import 'node:fs';`],
    ['a room from a page', 'src/routes/(book)/+page.ts', `import { x } from '#lib/device/clock.ts';`],
    ['a file outside src', 'src/cli/a.ts', `import '../../tests/house.ts';`],
    ['an import that cannot be read', 'src/lib/state/a.ts', `await import(name);`],
    ['a barrel', 'src/lib/trade/index.ts', ``],
    ['a barrel by another name', 'src/lib/trade/all.ts', `export * from './comb.ts';`],
    ['a name that says nothing', 'src/lib/trade/utils.ts', ``],
    ['a room without a row', 'src/lib/attic/a.ts', ``],
  ])('catches %s', (_, file, source) => {
    expect(faultsOf(file, source, rooms)).toHaveLength(1);
  });

  it.each([
    ['the loose file', 'src/lib/measure/a.ts', `import { ok } from '../result.ts';`],
    ['its own private file', 'src/lib/device/store/a.ts', `import { x } from './_transaction.ts';`],
    ['a part of a room', 'src/lib/work/a.ts', `import { x } from '#lib/device/store/idb-shelf.ts';`],
    ['a path inside a package', 'src/lib/record/a.ts', `import { x } from '@noble/hashes/sha2.js';`],
    ['words in a comment', 'src/lib/trade/a.ts', `// import { x } from '#lib/ui/x.ts'`],
  ])('lets %s pass', (_, file, source) => {
    expect(faultsOf(file, source, rooms)).toEqual([]);
  });
});

describe('README.md and DEVELOPERS.md', () => {
  const pages = ['README.md', 'DEVELOPERS.md'].map((file) => ({ file, text: read(file) }));
  const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };

  it.each(pages)('$file names commands that exist', ({ text }) => {
    const named = Array.from(text.matchAll(/\bnpm (?:run (?:-s )?([a-z]\w*)|(start|test)\b)/g), ([, script, short]) => script ?? short!);
    expect(named.length).toBeGreaterThan(1);
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });

  it.each(pages)('$file names files and folders that exist', ({ text }) => {
    const named = Array.from(text.matchAll(/`((?:src|tests|docs|static|\.ci)\/[\w./()-]+)`/g), ([, name]) => name!).filter(
      (name) => !/\/[A-Z]+\//.test(name),
    );
    expect(named.filter((name) => globSync(name.replace(/\/$/, ''), { cwd: ROOT }).length === 0)).toEqual([]);
  });

  it('DEVELOPERS.md names every command', () => {
    const developers = read('DEVELOPERS.md');
    expect(Object.keys(scripts).filter((name) => !new RegExp(`npm (run )?(-s )?${name}\\b`).test(developers))).toEqual([]);
  });
});

it('no source is empty; those longer than their thumb are printed', () => {
  const thumb = (file: string) => (file.startsWith('src/routes') ? 120 : /\.svelte(\.ts)?$/.test(file) ? 150 : 300);
  const lengths = sources.map((file) => ({ file, lines: read(file).split('\n').length - 1 }));
  const long = lengths.filter(({ file, lines }) => lines > thumb(file));
  for (const { file, lines } of long) console.warn(`${file}: ${lines} lines, its thumb is ${thumb(file)}`);
  expect(lengths.every(({ lines }) => lines > 0)).toBe(true);
});

function room(name: string, ...imports: string[]) {
  return { name, imports, packages: [] };
}

/** What the compiler says of files when it knows the language and nothing else: no DOM, no Node. */
function compileBare(files: readonly string[]): string[] {
  const program = ts.createProgram(files, {
    lib: ['lib.es2023.d.ts'],
    types: [],
    noEmit: true,
    strict: true,
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    allowImportingTsExtensions: true,
  });
  return ts.getPreEmitDiagnostics(program).map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'));
}
