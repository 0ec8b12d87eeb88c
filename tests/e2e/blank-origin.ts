import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/** A blank page on an http origin of its own, and one bundled module of ours beside it. */
export interface BlankOrigin {
  readonly url: string;
  close(): Promise<void>;
}

/** Bundles `entry` (a path below tests/) as an ES module and serves it at /entry.js, with an empty page at every other address. */
export async function serveBlank(entry: string): Promise<BlankOrigin> {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const built = await build({
    root,
    configFile: false,
    logLevel: 'silent',
    publicDir: false,
    build: { write: false, minify: false, target: 'es2022', lib: { entry: `${root}tests/${entry}`, formats: ['es'], fileName: 'entry' } },
  });
  if (!Array.isArray(built)) throw new TypeError('expected one output of a library build');
  const scripts = new Map(
    built.flatMap(({ output }) => output).flatMap((chunk) => (chunk.type === 'chunk' ? [[`/${chunk.fileName}`, chunk.code]] : [])),
  );
  const server = createServer((request, response) => {
    const script = scripts.get(request.url ?? '');
    response.setHeader('content-type', script === undefined ? 'text/html' : 'text/javascript');
    response.end(script ?? '<!doctype html><title>blank</title>');
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  return {
    url: `http://localhost:${(server.address() as AddressInfo).port}/`,
    close: () =>
      new Promise((closed) => {
        server.close(() => closed());
        server.closeAllConnections();
      }),
  };
}
