// Compiles the messages of both languages to functions (`compiled/`, not committed), and fails on a key that a language lacks
// or a placeholder that differs: the compiler itself would fall back to English without a word.
import { compile } from '@inlang/paraglide-js';
import { readdir, readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const LOCALES = ['en', 'es'];

const placeholders = (message) => [...new Set(JSON.stringify(message).match(/\{\w+\}/g) ?? [])].sort().join(' ');

const files = (await readdir(here('messages/en'))).sort();
const complaints = [];
const seen = new Map();
for (const file of files) {
  const [en, es] = await Promise.all(LOCALES.map(async (locale) => JSON.parse(await readFile(here(`messages/${locale}/${file}`), 'utf8'))));
  for (const key of new Set([...Object.keys(en), ...Object.keys(es)])) {
    if (!(key in es)) complaints.push(`${file}: "${key}" is missing in es`);
    else if (!(key in en)) complaints.push(`${file}: "${key}" is missing in en`);
    else if (placeholders(en[key]) !== placeholders(es[key])) complaints.push(`${file}: "${key}" has other placeholders in es`);
    if (seen.has(key)) complaints.push(`${file}: "${key}" stands in ${seen.get(key)} too`);
    seen.set(key, file);
  }
}
if (complaints.length > 0) {
  console.error(`Messages: ${complaints.length} to mend\n${complaints.join('\n')}`);
  process.exit(1);
}

// The compiler reads its project's paths from the working directory of the project, wherever it is called from.
process.chdir(here('.'));
await compile({
  project: './project.inlang',
  outdir: './compiled',
  strategy: ['baseLocale'],
  isServer: 'false',
  emitReadme: false,
  cleanOutdir: true,
});
const compiled = await import(here('compiled/messages.js'));
// A plugin that cannot be loaded leaves zero messages and no error, so count them.
const missing = [...seen.keys()].filter((key) => !(key in compiled));
if (missing.length > 0) {
  console.error(`Messages: the compiler left out ${missing.length}, first "${missing[0]}"`);
  process.exit(1);
}

// One file of types for them all: the compiler, the linter and the editor need not read a file of code for each message.
const declared = await Promise.all(
  [...seen.keys()].map(async (key) => {
    const code = await readFile(here(`compiled/messages/${key}.js`), 'utf8');
    const inputs = /@typedef \{(.*)\} (\w+Inputs) \*\//.exec(code);
    const type = new RegExp(`export const ${key} = /\\*\\* @type \\{(.*)\\} \\*/`).exec(code);
    if (inputs === null || type === null) throw new Error(`"${key}" is compiled to another form: its type is not found`);
    return `export declare const ${key}: ${type[1].replaceAll(inputs[2], inputs[1]).replaceAll('../runtime.js', './runtime.js')};\n`;
  }),
);
const returned = "type LocalizedString = import('./runtime.js').LocalizedString;\n";
await writeFile(here('compiled/messages.d.ts'), returned + declared.join(''));
