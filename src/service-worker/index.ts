import { version } from '$app/env';
import { assets, immutable, prerendered } from '$app/manifest';
import { self } from '$app/service-worker';

/** One cache a build. The build before keeps its cache, so that a tab still open on it can load the parts it has not used yet. */
const PREFIX = 'layerbook-';
const OURS = `${PREFIX}${version}`;

const addresses = [...immutable, ...assets, ...prerendered].map(({ path }) => (path.startsWith('/') ? path : `/${path}`));

/** What the first screen does not need: workers with their libraries, the recogniser, and the example's pictures. Fetched right after the start. */
const isHeavy = (address: string) =>
  address.includes('/workers/') || address.endsWith('.wasm') || address.startsWith('/voice/') || address.startsWith('/example/');
const CORE = [...new Set(['/', ...addresses.filter((address) => !isHeavy(address))])];
const HEAVY = addresses.filter(isHeavy);

self.addEventListener('install', (event) => {
  event.waitUntil(fill(CORE));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(dropOldBuilds().then(() => self.clients.claim()));
});

self.addEventListener('message', (event) => {
  const wish: unknown = event.data;
  // A newer build takes over only when the person says so: never while something is being written down.
  if (wish === 'take-over') void self.skipWaiting();
  if (wish === 'cache-heavy') {
    event.waitUntil(
      fill(HEAVY).then(
        () => event.ports[0]?.postMessage('ready-offline'),
        () => event.ports[0]?.postMessage('not-ready'),
      ),
    );
  }
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== self.location.origin) return;
  if (pathname.startsWith('/api/') || pathname.startsWith('/share/')) return;
  // Any address of the book is answered with the one shell, which then routes by itself.
  event.respondWith(answer(request.mode === 'navigate' ? '/' : pathname, request));
});

async function answer(address: string, request: Request): Promise<Response> {
  const ours = await (await caches.open(OURS)).match(address);
  if (ours !== undefined) return ours;
  const before = request.mode === 'navigate' ? undefined : await caches.match(address);
  return before ?? fetch(request);
}

/** Adds what is missing, a few at a time: a weak signal that breaks off loses only the file under way. */
async function fill(wanted: readonly string[]): Promise<void> {
  const cache = await caches.open(OURS);
  const held = new Set((await cache.keys()).map((request) => new URL(request.url).pathname));
  const missing = wanted.filter((address) => !held.has(address));
  while (missing.length > 0) await cache.addAll(missing.splice(0, 8));
}

/** Caches are listed in the order in which they were made: all but ours and the one made before it go. */
async function dropOldBuilds(): Promise<void> {
  const builds = (await caches.keys()).filter((name) => name.startsWith(PREFIX));
  const before = builds.filter((name) => name !== OURS).at(-1);
  await Promise.all(builds.filter((name) => name !== OURS && name !== before).map((name) => caches.delete(name)));
}
