import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { ROOT } from '../../src/cli/ready.mjs';

/** The real server on a port of its own. */
export interface Served {
  readonly url: string;
  stop(): Promise<void>;
}

/** Starts `src/server.mjs` on what stands in build/ and waits for the one line it prints. Without a port it takes a free one. */
export async function serveBuild(root = ROOT, port = '0'): Promise<Served> {
  const server = spawn(process.execPath, ['src/server.mjs'], {
    cwd: root,
    env: { ...process.env, PORT: port },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const [url] = (await once(createInterface(server.stdout), 'line')) as [string];
  return {
    url,
    stop: async () => {
      server.kill();
      await once(server, 'exit');
    },
  };
}
