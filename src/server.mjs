// Serves build/ on this computer only: browsers give camera and offline to https and to localhost, and to no other address.
import { createServer } from 'node:http';

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 22 || (major === 22 && minor < 17)) {
  console.error(`Layerbook's server needs Node 22.17 or newer; this is ${process.versions.node}. "npm start" brings its own.`);
  process.exit(1);
}

/** On every answer, files and workers too: a page is isolated only when all it loads says so. */
const HEADERS = {
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'content-security-policy': "frame-ancestors 'none'",
  'referrer-policy': 'no-referrer',
  'permissions-policy': 'camera=(self), microphone=(self)',
  // Always asked again, or a phone would stay on an old build. Files whose name holds their hash say otherwise themselves.
  'cache-control': 'no-cache',
};

const { handler } = await import('../build/handler.js').catch((error) => {
  if (error.code !== 'ERR_MODULE_NOT_FOUND') throw error;
  console.error('There is no build yet. "npm start" makes one and serves it.');
  process.exit(1);
});

function answer(request, response) {
  for (const [name, value] of Object.entries(HEADERS)) response.setHeader(name, value);
  handler(request, response, () => response.writeHead(404).end());
}

/** Both loopback addresses, since either may be what a browser takes `localhost` for. Rejects when one is taken. */
async function listen(port) {
  const first = await listenOn('127.0.0.1', port);
  try {
    return [first, await listenOn('::1', first.address().port)];
  } catch (error) {
    if (error.code !== 'EADDRINUSE') return [first];
    first.close();
    throw error;
  }
}

function listenOn(host, port) {
  return new Promise((resolve, reject) => {
    const server = createServer(answer).once('error', reject);
    server.listen(port, host, () => resolve(server));
  });
}

async function listenOnFirstFree(port) {
  try {
    return await listen(port);
  } catch (error) {
    if (error.code !== 'EADDRINUSE' || port >= 65_535) throw error;
    return listenOnFirstFree(port + 1);
  }
}

const { PORT } = process.env;
const servers = await (PORT === undefined ? listenOnFirstFree(4173) : listen(Number(PORT))).catch((error) => {
  console.error(`Port ${PORT} cannot be used (${error.code}).`);
  process.exit(1);
});

function stop() {
  for (const server of servers) {
    server.close();
    server.closeAllConnections();
  }
  if (process.connected) process.disconnect();
}
for (const event of ['SIGINT', 'SIGTERM', 'disconnect']) process.on(event, stop);

console.log(`http://localhost:${servers[0].address().port}`);
