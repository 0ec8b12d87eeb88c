// The programs the tests need beside Node: a browser, and the PDF and archive tools that check our files without our code.
// Plain Node without dependencies, because it runs before there are any.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

/** Debian package -> what finds the program it brings. */
const NEEDED = {
  chromium: chromiumPath,
  'chromium-headless-shell': shellPath,
  qpdf: () => onPath('qpdf'),
  'poppler-utils': () => onPath('pdfdetach'),
  unzip: () => onPath('unzip'),
  python3: () => onPath('python3'),
  'espeak-ng': () => onPath('espeak-ng'),
  flite: () => onPath('flite'),
};

/**
 * The Chromium to test in: CHROMIUM_PATH, else one on PATH, else the one Playwright has downloaded. Null when there is none.
 * A CHROMIUM_PATH that names no file is an error, so that a wrong setting never tests another browser than was asked for.
 *
 * @returns {string | null}
 */
export function chromiumPath() {
  const { CHROMIUM_PATH: asked } = process.env;
  if (asked !== undefined && !existsSync(asked)) throw new Error(`CHROMIUM_PATH names no file: ${asked}`);
  return asked ?? onPath('chromium') ?? onPath('chromium-browser') ?? onPath('google-chrome') ?? playwrightsOwn();
}

/**
 * The same engine without the windows, which takes half the processor's time for a page; else the whole Chromium.
 *
 * @returns {string | null}
 */
export function shellPath() {
  const asked = process.env.CHROMIUM_PATH === undefined ? null : chromiumPath();
  return asked ?? onPath('chromium-headless-shell') ?? chromiumPath();
}

/** Installs what is missing where we may (root, apt-get); else stops with one line that names the packages. Never fewer tests. */
export function ensurePackages() {
  const missing = missingPackages();
  if (missing.length === 0) return;
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const apt = (...args) => spawnSync('apt-get', ['-qq', ...args], { env, encoding: 'utf8' });
  if (process.getuid?.() === 0 && onPath('apt-get') !== null) {
    console.error(`Installing ${missing.join(', ')} ...`);
    apt('update');
    const { stdout, stderr } = apt('install', '-y', '--no-install-recommends', ...missing);
    if (missingPackages().length > 0) console.error(`${stdout}${stderr}`);
  }
  const left = missingPackages();
  if (left.length === 0) return;
  console.error(`The tests need these packages, please install them: ${left.join(' ')}`);
  process.exit(1);
}

function missingPackages() {
  return Object.entries(NEEDED).flatMap(([name, find]) => (find() === null ? [name] : []));
}

function onPath(program) {
  const places = (process.env.PATH ?? '').split(path.delimiter).map((folder) => path.join(folder, program));
  return places.find((place) => existsSync(place)) ?? null;
}

function playwrightsOwn() {
  try {
    // It names a place even when nothing was downloaded to it.
    const place = createRequire(import.meta.url)('playwright').chromium.executablePath();
    return existsSync(place) ? place : null;
  } catch {
    return null;
  }
}
