import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { ROOT } from '../../src/cli/ready.mjs';

/** The real server on a port of its own. */
export interface Served {
  readonly url: string;
  stop(): Promise<void>;
}

/** Starts `src/server.mjs` on what stands in build/ and waits for the one line it prints. */
export async function serveBuild(): Promise<Served> {
  const server = spawn(process.execPath, ['src/server.mjs'], {
    cwd: ROOT,
    env: { ...process.env, PORT: '0' },
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
