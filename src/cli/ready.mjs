// What has to be there before anything of Layerbook can run: packages, compiled messages, generated types, a build. Plain Node
// without dependencies, because this runs before there are any.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** The oldest Node that can install (npm's own need), and the oldest that can build and serve (the framework's need). */
const TO_INSTALL = [20, 19];
const TO_RUN = [22, 17];

/** Says one sentence instead of a stack: for what the person at the terminal can mend. */
export function stop(sentence) {
  console.error(sentence);
  process.exit(1);
}

/** Installs, compiles and generates whatever is missing or out of date, and returns the path of the Node to go on with. */
export function ensureReady() {
  if (isOlder(process.versions.node, TO_INSTALL)) {
    stop(`Layerbook needs Node ${TO_INSTALL.join('.')} or newer; this is ${process.versions.node}.`);
  }
  const lock = hashOf(['package-lock.json']);
  once('node_modules/.layerbook-lock', lock, () => {
    say('Installing packages (about a minute) ...');
    run(...npmCommand('ci', '--include=dev', '--include=optional'));
  });
  const node = projectNode();
  once(
    'src/lib/words/compiled/.inputs',
    hashOf(['src/lib/words/compile.mjs', 'src/lib/words/project.inlang/settings.json', 'src/lib/words/messages'], lock),
    () => {
      run(node, ['src/lib/words/compile.mjs']);
    },
  );
  // The generated types depend on which route files exist, not on what they hold.
  const routes = filesUnder('src/routes').join('\n');
  once('.svelte-kit/.inputs', hashOf(['vite.config.ts'], lock + routes), () => {
    run(node, ['node_modules/@sveltejs/kit/svelte-kit.js', 'sync']);
  });
  return node;
}

/** Builds into `build/`, unless what is there was built from these very sources. Returns the path of the Node to go on with. */
export function ensureBuilt() {
  const node = ensureReady();
  const sources = hashOf(['package.json', 'package-lock.json', 'vite.config.ts', 'src', 'static']);
  once('build/.inputs', sources, () => {
    say('Building ...');
    run(node, ['node_modules/vite/bin/vite.js', 'build', '--logLevel=warn']);
  });
  return node;
}

/** Goes on as `node args...`: signals are handed down, its exit code becomes ours. */
export function goOn(node, args, options = {}) {
  const child = spawn(node, args, { stdio: 'inherit', ...options });
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
  child.on('exit', (code) => {
    process.exitCode = code ?? 1;
  });
}

/** SHA-256 over the names and bytes of files and folders (paths from the root), and over `more`. Compiled messages are left out. */
export function hashOf(paths, more = '') {
  const hash = createHash('sha256').update(more);
  for (const file of paths.flatMap(filesUnder)) hash.update(`\n${file}\n`).update(readFileSync(path.join(ROOT, file)));
  return hash.digest('hex');
}

/**
 * The command that calls npm: program, arguments, options for spawn. npm tells its scripts where it lives and which Node it runs
 * under, and that Node is never the packaged one that an install is about to replace.
 */
export function npmCommand(...args) {
  const { npm_execpath: cli, npm_node_execpath: node = process.execPath } = process.env;
  if (cli?.endsWith('.js')) return [node, [cli, ...args], {}];
  return ['npm', args, { shell: process.platform === 'win32' }];
}

function filesUnder(from) {
  const place = path.join(ROOT, from);
  if (!existsSync(place) || from.endsWith('words/compiled')) return [];
  if (statSync(place).isFile()) return [from];
  return readdirSync(place)
    .sort()
    .flatMap((name) => filesUnder(`${from}/${name}`));
}

/** Does `work` unless the note says it was done for the same inputs. The note is written last, so a broken-off work is done again. */
function once(note, inputs, work) {
  const place = path.join(ROOT, note);
  if (existsSync(place) && readFileSync(place, 'utf8') === inputs) return;
  work();
  writeFileSync(place, inputs);
}

/** The Node that came with the packages; where none is published for this system, the one we run under. */
function projectNode() {
  const windows = process.platform === 'win32';
  const packaged = path.join(ROOT, 'node_modules', windows ? `node-win-${process.arch}/bin/node.exe` : '.bin/node');
  if (existsSync(packaged) && spawnSync(packaged, ['--version']).status === 0) return packaged;
  if (isOlder(process.versions.node, TO_RUN)) {
    stop(`On this system Layerbook needs a Node ${TO_RUN.join('.')} or newer of yours; this is ${process.versions.node}.`);
  }
  return process.execPath;
}

function isOlder(version, [major, minor]) {
  const [ours = 0, oursMinor = 0] = version.split('.').map(Number);
  return ours < major || (ours === major && oursMinor < minor);
}

/** Progress goes to stderr: stdout belongs to what was asked for. */
function say(line) {
  console.error(line);
}

/** Runs a command in the project's folder, silent unless it fails; then all it said is shown, and we end with its code. */
function run(command, args, options) {
  const done = spawnSync(command, args, { cwd: ROOT, encoding: 'utf8', maxBuffer: 1 << 26, ...options });
  if (done.status === 0) return;
  const name = [path.basename(command), ...args].join(' ');
  console.error(done.error === undefined ? `${done.stdout}${done.stderr}` : done.error.message);
  stop(`"${name}" ended with ${done.status ?? done.signal ?? 'no code'}.`);
}
