import { execFileSync } from 'node:child_process';

/** What a program says of a file of ours, without our code. Throws when it fails. */
export function tool(command: string, ...args: string[]): string {
  return execFileSync(command, args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
}
