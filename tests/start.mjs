// Does what a newcomer does: `npm start`, open the address, open the example. Ends with one line that counts it as a test.
// Plain Node, because in a fresh clone `npm start` is what brings everything else.
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { chromiumPath, ensurePackages } from './packages.mjs';

const PATIENCE_MS = 5 * 60_000;

ensurePackages();
const env = { ...process.env };
delete env.PORT;
// A process group of its own: npm, its shell and the server are then ended together.
const start = spawn('npm', ['start'], {
  cwd: fileURLToPath(new URL('..', import.meta.url)),
  env,
  detached: true,
  stdio: ['ignore', 'pipe', 'inherit'],
});
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => void end().then(() => process.exit(1)));

let failed = 0;
try {
  const from = Date.now();
  const url = await address();
  console.log(`npm start answers at ${url} after ${((Date.now() - from) / 1000).toFixed(0)} s`);
  const { status } = await fetch(url);
  if (status !== 200) throw new Error(`GET / answered ${status}`);
  await openExample(url);
  console.log('the example opens');
} catch (error) {
  failed = 1;
  console.error(error);
} finally {
  await end();
}
console.log(`${1 - failed} passed, ${failed} failed`);
process.exitCode = failed;

async function address() {
  const late = setTimeout(() => void end(), PATIENCE_MS);
  try {
    for await (const line of createInterface(start.stdout)) if (/^http:\/\/localhost:\d+$/.test(line)) return line;
  } finally {
    clearTimeout(late);
  }
  throw new Error(`npm start gave no address, and was ended after ${PATIENCE_MS / 60_000} minutes at most`);
}

async function openExample(url) {
  const { chromium } = createRequire(import.meta.url)('playwright');
  const browser = await chromium.launch({ executablePath: chromiumPath(), args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
    await page.goto(url);
    await page.locator('a[href^="/job/example"]').click();
    await page.getByTestId('section').waitFor();
  } finally {
    await browser.close();
  }
}

async function end() {
  if (start.exitCode !== null || start.signalCode !== null) return;
  const gone = new Promise((resolve) => start.on('exit', resolve));
  process.kill(-start.pid, 'SIGTERM');
  await gone;
}
