import { spawnSync } from 'node:child_process';
import { answerTo } from '../../../src/cli/commands.ts';
import { ROOT } from '../../../src/cli/ready.mjs';

interface Answer {
  readonly exit: number | null;
  readonly answer: unknown;
}

/** A person in `folder` who types a command: a process of its own, which takes half a second to begin. */
export function typed(folder: string, args: readonly string[], env: Record<string, string> = {}): Answer & { readonly stderr: string } {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['src/cli/layerbook.ts', ...args], {
    cwd: ROOT,
    env: { PATH: process.env['PATH'], INIT_CWD: folder, LANG: 'C', ...env },
    encoding: 'utf8',
  });
  return { exit: status, answer: JSON.parse(stdout) as unknown, stderr };
}

/** The same without the process around it. */
export async function asked(folder: string, args: readonly string[], env: Record<string, string> = {}): Promise<Answer> {
  const { exit, answer } = await answerTo(args, { INIT_CWD: folder, LANG: 'C', ...env });
  return { exit, answer: JSON.parse(JSON.stringify(answer)) as unknown };
}
