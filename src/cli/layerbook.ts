// npm run -s layerbook -- COMMAND: what the book can do without a screen. One JSON on stdout, nothing else.
import path from 'node:path';
import { parseArgs } from 'node:util';
import * as m from '#lib/words/compiled/messages.js';
import { badInput, type Call, type Outcome } from './outcome.ts';

interface Command {
  readonly usage: string;
  readonly takes: readonly ('file' | 'out' | 'name')[];
  /** Takes `--svg OUT` too, if the caller wants a drawing. */
  readonly draws?: true;
  run(call: Call): Promise<Outcome>;
}

/** Each loads what it needs when it is called: checking an archive waits for no PDF library. */
const COMMANDS: Readonly<Record<string, Command>> = {
  compute: {
    usage: 'layerbook compute --list | layerbook compute NAME FILE',
    takes: ['name', 'file'],
    run: async (call) => (await import('./compute.ts')).computeCommand(call),
  },
  example: {
    usage: 'layerbook example --out ZIP',
    takes: ['out'],
    run: async (call) => (await import('./example.ts')).exampleCommand(call),
  },
  plan: {
    usage: 'layerbook plan FILE [--svg OUT]',
    takes: ['file'],
    draws: true,
    run: async (call) => (await import('./plan.ts')).planCommand(call),
  },
  recompute: {
    usage: 'layerbook recompute FILE',
    takes: ['file'],
    run: async (call) => (await import('./recompute.ts')).recomputeCommand(call),
  },
  report: {
    usage: 'layerbook report FILE --out PDF',
    takes: ['file', 'out'],
    run: async (call) => (await import('./report.ts')).reportCommand(call),
  },
  verify: { usage: 'layerbook verify FILE', takes: ['file'], run: async (call) => (await import('./verify.ts')).verifyCommand(call) },
};

async function main(args: readonly string[], env: NodeJS.ProcessEnv): Promise<Outcome> {
  const locale = /^es/.test(env['LC_ALL'] || env['LC_MESSAGES'] || env['LANG'] || '') ? 'es' : 'en';
  const [name = '', ...rest] = args;
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (command === undefined) {
    return badInput('COMMAND', 'unknown-command', m.fault_unknown_command({ commands: Object.keys(COMMANDS).join(', ') }, { locale }));
  }
  const given = argumentsOf(rest, command);
  if (name === 'compute' && rest.length === 1 && rest[0] === '--list') return (await import('./compute.ts')).listCommand();
  if (given === null) return badInput('COMMAND', 'bad-arguments', m.fault_bad_arguments({ usage: command.usage }, { locale }));
  // npm changes into the project's folder; a path is meant from where the person stands.
  const place = (file: string) => path.resolve(env['INIT_CWD'] ?? '.', file);
  const drawing = given.svg === undefined ? {} : { svg: place(given.svg) };
  return command.run({ name: given.name, file: place(given.file), out: place(given.out), locale, ...drawing });
}

interface Given {
  readonly name: string;
  readonly file: string;
  readonly out: string;
  readonly svg: string | undefined;
}

/** The arguments a command takes, neither fewer nor more, or null. */
function argumentsOf(args: readonly string[], { takes, draws }: Command): Given | null {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      options: { out: { type: 'string' }, svg: { type: 'string' } },
      allowPositionals: true,
    });
    const [name = '', file = '', ...more] = takes.includes('name') ? positionals : ['', ...positionals];
    const out = values.out ?? '';
    const fits = more.length === 0 && takes.includes('file') === (file !== '') && takes.includes('out') === (out !== '');
    const { svg } = values;
    const drawn = svg === undefined || (draws === true && svg !== '');
    return fits && drawn && takes.includes('name') === (name !== '') ? { name, file, out, svg } : null;
  } catch {
    return null;
  }
}

try {
  const { exit, answer } = await main(process.argv.slice(2), process.env);
  console.log(JSON.stringify(answer));
  process.exitCode = exit;
} catch (error) {
  // Our own mistake. 1 would say that an archive was changed; 70 is EX_SOFTWARE of sysexits.h.
  console.error(error);
  process.exitCode = 70;
}
