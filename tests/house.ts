import { posix as path } from 'node:path';
import ts from 'typescript';

/** A row of the table in docs/house.md. Names are paths below src/, or below src/lib/. */
export interface Room {
  readonly name: string;
  readonly imports: readonly string[];
  readonly packages: readonly string[];
}

const FORBIDDEN_NAMES = new Set(['utils', 'helpers', 'common', 'misc', 'types', 'manager']);
/** What stands for an import whose target is not a literal. */
const COMPUTED = '(computed)';

/** The rooms in the first table of a Markdown page: every name in it is set in backticks. */
export function readRooms(markdown: string): Room[] {
  const names = (cell: string) => Array.from(cell.matchAll(/`([^`]+)`/g), ([, name]) => name!);
  return markdown
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) => line.split('|').slice(1, 4))
    .map(([room = '', imports = '', packages = '']) => ({ name: names(room)[0]!, imports: names(imports), packages: names(packages) }));
}

/** A chain of rooms that import each other in a circle, or null. */
export function circle(rooms: readonly Room[]): string[] | null {
  const around = (name: string, above: readonly string[]): string[] | null => {
    if (above.includes(name)) return [...above.slice(above.indexOf(name)), name];
    for (const next of roomNamed(rooms, name)?.imports ?? []) {
      const found = around(next, [...above, name]);
      if (found !== null) return found;
    }
    return null;
  };
  return rooms.map(({ name }) => around(name, [])).find((found) => found !== null) ?? null;
}

/** What is wrong with one file of src/ by the table of rooms, a sentence each. `file` is its path from the root. */
export function faultsOf(file: string, source: string, rooms: readonly Room[]): string[] {
  const room = roomOf(file, rooms);
  if (room === null) return file === 'src/lib/result.ts' ? [] : [`${file} stands in no room`];
  const bare = path.basename(file).split('.')[0]!;
  const faults: string[] = [];
  if (FORBIDDEN_NAMES.has(bare.toLowerCase())) faults.push(`${file} is called ${bare}`);
  if (bare === 'index' && file.startsWith('src/lib/')) faults.push(`${file} is a barrel`);
  for (const { wanted, all } of importsOf(file, source)) {
    if (all) faults.push(`${file} exports all of ${wanted}`);
    const fault = importFault(file, wanted, room, rooms);
    if (fault !== null) faults.push(`${file} imports ${wanted}: ${fault}`);
  }
  return faults;
}

function importFault(file: string, wanted: string, room: Room, rooms: readonly Room[]): string | null {
  const target = targetOf(file, wanted);
  if (target === 'src/lib/result.ts') return null;
  if (target === null || !target.startsWith('src/')) {
    const outside = target ?? wanted;
    const allowed = room.packages.some((name) => outside === name || outside.startsWith(name.endsWith(':') ? name : `${name}/`));
    return allowed ? null : `${room.name} may use ${room.packages.join(', ') || 'no package'}`;
  }
  const other = roomOf(target, rooms);
  if (other === room) return null;
  if (target.split('/').some((part) => part.startsWith('_'))) return `private to ${other?.name ?? 'no room'}`;
  const within = target.replace(/^src\/(lib\/)?/, '');
  const allowed = room.imports.some((name) => within.startsWith(`${name}/`));
  return allowed ? null : `${room.name} may import ${room.imports.join(', ') || 'no room'}`;
}

/** The path an import leads to, from the root; null for a package. */
function targetOf(file: string, wanted: string): string | null {
  const bare = wanted.replace(/\?.*$/, '');
  if (bare.startsWith('#lib/')) return path.join('src/lib', bare.slice('#lib/'.length));
  return bare.startsWith('.') ? path.join(path.dirname(file), bare) : null;
}

function roomOf(file: string, rooms: readonly Room[]): Room | null {
  const within = file.replace(/^src\/(lib\/)?/, '');
  const around = rooms.filter(({ name }) => within === name || within.startsWith(`${name}/`));
  return around.sort((a, b) => b.name.length - a.name.length)[0] ?? null;
}

function roomNamed(rooms: readonly Room[], name: string): Room | undefined {
  return rooms.find((room) => room.name === name) ?? rooms.find((room) => name.startsWith(`${room.name}/`));
}

interface Import {
  readonly wanted: string;
  /** `export * from`. */
  readonly all: boolean;
}

/** Every module a source names: imports and exports, of types too, dynamic ones, workers, and those in the markup of a component. */
function importsOf(file: string, source: string): Import[] {
  if (!file.endsWith('.svelte')) return walk(source, file);
  const scripts = Array.from(source.matchAll(/<script[^>]*>([\s\S]*?)<\/script>/g), ([, script]) => script!);
  const markup = source.replace(/<(script|style)[^>]*>[\s\S]*?<\/\1>/g, '');
  const dynamic = Array.from(markup.matchAll(/\bimport\(\s*['"]([^'"]+)['"]/g), ([, wanted]) => ({ wanted: wanted!, all: false }));
  return [...scripts.flatMap((script) => walk(script, `${file}.ts`)), ...dynamic];
}

function walk(source: string, file: string): Import[] {
  const found: Import[] = [];
  const add = (node: ts.Node | undefined, all = false) => {
    found.push({ wanted: node !== undefined && ts.isStringLiteralLike(node) ? node.text : COMPUTED, all });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node)) add(node.moduleSpecifier);
    else if (ts.isExportDeclaration(node) && node.moduleSpecifier !== undefined) add(node.moduleSpecifier, node.exportClause === undefined);
    else if (ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)) add(node.argument.literal);
    else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) add(node.arguments[0]);
    else if (ts.isCallExpression(node) && node.expression.getText() === 'import.meta.glob') add(undefined);
    else if (isModuleUrl(node)) add(node.arguments?.[0]);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true));
  return found;
}

/** `new URL('./a.worker.ts', import.meta.url)`: a worker or a file of ours. A folder, ending in a slash, is no module. */
function isModuleUrl(node: ts.Node): node is ts.NewExpression {
  if (!ts.isNewExpression(node) || node.expression.getText() !== 'URL') return false;
  const [place, base] = node.arguments ?? [];
  return base?.getText() === 'import.meta.url' && place !== undefined && ts.isStringLiteralLike(place) && /\.[a-z]+$/.test(place.text);
}
