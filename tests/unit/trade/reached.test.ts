import { globSync, readFileSync } from 'node:fs';
import { join, normalize } from 'node:path';
import ts from 'typescript';
import { expect, it } from 'vitest';

/** What a file exports or declares at its top, and which names each of these speaks of. */
interface Read {
  readonly uses: ReadonlyMap<string, ReadonlySet<string>>;
  readonly exported: ReadonlySet<string>;
  /** Local name -> where it comes from. */
  readonly imported: ReadonlyMap<string, { readonly file: string; readonly name: string }>;
}

const sourceOf = (file: string) => {
  const text = readFileSync(file, 'utf8');
  return file.endsWith('.svelte')
    ? Array.from(text.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g), ([, script]) => script).join('\n')
    : text;
};
const placeOf = (from: string, what: string) =>
  what.startsWith('#lib/') ? what.replace('#lib/', 'src/lib/') : what.startsWith('.') ? normalize(join(from, '..', what)) : null;

function read(file: string): Read {
  const parsed = ts.createSourceFile(file, sourceOf(file), ts.ScriptTarget.Latest, true, ts.ScriptKind.TS);
  const uses = new Map<string, Set<string>>();
  const exported = new Set<string>();
  const imported = new Map<string, { file: string; name: string }>();
  const namesIn = (node: ts.Node, found = new Set<string>()): Set<string> => {
    if (ts.isIdentifier(node)) found.add(node.text);
    node.forEachChild((child) => void namesIn(child, found));
    return found;
  };
  for (const statement of parsed.statements) {
    if (ts.isImportDeclaration(statement) && ts.isStringLiteral(statement.moduleSpecifier)) {
      const place = placeOf(file, statement.moduleSpecifier.text);
      const named = statement.importClause?.namedBindings;
      if (place === null || named === undefined || !ts.isNamedImports(named)) continue;
      for (const one of named.elements) imported.set(one.name.text, { file: place, name: (one.propertyName ?? one.name).text });
      continue;
    }
    const isExported =
      ts.canHaveModifiers(statement) && (ts.getModifiers(statement) ?? []).some((one) => one.kind === ts.SyntaxKind.ExportKeyword);
    const declared = ts.isVariableStatement(statement)
      ? statement.declarationList.declarations.flatMap((one) => (ts.isIdentifier(one.name) ? [one.name.text] : []))
      : ts.isFunctionDeclaration(statement) && statement.name !== undefined
        ? [statement.name.text]
        : [];
    for (const name of declared) {
      uses.set(name, namesIn(statement));
      if (isExported) exported.add(name);
    }
  }
  return { uses, exported, imported };
}

/** Every file that a page draws in, by whatever way. */
function drawnIn(starts: readonly string[]): Set<string> {
  const seen = new Set<string>();
  const queue = [...starts];
  for (let file = queue.pop(); file !== undefined; file = queue.pop()) {
    if (seen.has(file)) continue;
    seen.add(file);
    if (!/\.(ts|svelte)$/.test(file)) continue;
    for (const [, what] of sourceOf(file).matchAll(/(?:from|import|new URL)\s*\(?\s*['"]([^'"]+)['"]/g)) {
      const place = placeOf(file, what!);
      if (place !== null && !place.includes('/compiled/') && /\.(ts|svelte)$/.test(place)) queue.push(place);
    }
  }
  return seen;
}

it('each export of the trade is reached from a page', () => {
  const trade = globSync('src/lib/trade/**/*.ts').map((file) => file.replaceAll('\\', '/'));
  const files = new Map(trade.map((file) => [file, read(file)] as const));
  const outside = [...drawnIn(globSync('src/routes/**/*.{ts,svelte}'))].filter((file) => !files.has(file) && /\.(ts|svelte)$/.test(file));
  const queue = outside.flatMap((file) => [...read(file).imported.values()]);
  const reached = new Set<string>();
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    const of = files.get(next.file);
    const key = `${next.file} ${next.name}`;
    if (of === undefined || reached.has(key)) continue;
    reached.add(key);
    for (const name of of.uses.get(next.name) ?? []) queue.push(of.imported.get(name) ?? { file: next.file, name });
  }
  // Of the documents' table the pages word the keys in both languages; its titles are for whoever reads the code.
  reached.add('src/lib/trade/sources.ts SOURCES');
  const all = [...files].flatMap(([file, { exported }]) => [...exported].map((name) => `${file} ${name}`));
  expect(all.length).toBeGreaterThan(80);
  expect(all.filter((one) => !reached.has(one))).toEqual([]);
});
