import path from 'node:path';
import { parseArgs } from 'node:util';
import * as m from '#lib/words/compiled/messages.js';
import { badInput, type Call, type Outcome } from './outcome.ts';

const ARGUMENTS = ['name', 'file', 'out', 'points', 'svg'] as const;
type Argument = (typeof ARGUMENTS)[number];

interface Command {
  readonly usage: string;
  /** What it is called with, neither fewer nor more. `name` and `file` stand as they are, the others after their option. */
  readonly takes: readonly Argument[];
  /** What it takes if it is given. */
  readonly mayTake?: readonly Argument[];
  run(call: Call): Promise<Outcome>;
}

/** Each loads what it needs when it is called: checking an archive waits for no PDF library. */
const COMMANDS: Readonly<Record<string, Command>> = {
  card: { usage: 'layerbook card --out FILE', takes: ['out'], run: async (call) => (await import('./card.ts')).cardCommand(call) },
  'compute --list': { usage: 'layerbook compute --list', takes: [], run: async () => (await import('./compute.ts')).listCommand() },
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
  'measure coverage': {
    usage: 'layerbook measure coverage PHOTO --points JSON',
    takes: ['file', 'points'],
    run: async (call) => (await import('./measure.ts')).coverageCommand(call),
  },
  'measure length': {
    usage: 'layerbook measure length PHOTO --points JSON',
    takes: ['file', 'points'],
    run: async (call) => (await import('./measure.ts')).lengthCommand(call),
  },
  plan: {
    usage: 'layerbook plan FILE [--svg OUT]',
    takes: ['file'],
    mayTake: ['svg'],
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

/** What a command line is answered. Language and the place that files are meant from are read from `env`. */
export async function answerTo(args: readonly string[], env: NodeJS.ProcessEnv): Promise<Outcome> {
  const locale = /^es/.test(env['LC_ALL'] || env['LC_MESSAGES'] || env['LANG'] || '') ? 'es' : 'en';
  const words = Object.hasOwn(COMMANDS, args.slice(0, 2).join(' ')) ? 2 : 1;
  const name = args.slice(0, words).join(' ');
  const command = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (command === undefined) {
    return badInput('COMMAND', 'unknown-command', m.fault_unknown_command({ commands: Object.keys(COMMANDS).join(', ') }, { locale }));
  }
  const given = argumentsOf(args.slice(words), command);
  if (given === null) return badInput('COMMAND', 'bad-arguments', m.fault_bad_arguments({ usage: command.usage }, { locale }));
  // npm changes into the project's folder; a path is meant from where the person stands.
  const place = (file: string) => (file === '' ? '' : path.resolve(env['INIT_CWD'] ?? '.', file));
  const { file, out, points, svg } = given;
  return command.run({ name: given.name, file: place(file), out: place(out), points: place(points), svg: place(svg), locale });
}

/** The arguments a command takes, or null; one that was not given is ''. */
function argumentsOf(args: readonly string[], { takes, mayTake = [] }: Command): Record<Argument, string> | null {
  try {
    const options = { out: { type: 'string' }, points: { type: 'string' }, svg: { type: 'string' } } as const;
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true });
    const [name = '', file = '', ...more] = takes.includes('name') ? positionals : ['', ...positionals];
    const given = { name, file, out: values.out ?? '', points: values.points ?? '', svg: values.svg ?? '' };
    const fits = ARGUMENTS.every((one) =>
      mayTake.includes(one) ? values[one as 'svg'] !== '' : takes.includes(one) === (given[one] !== ''),
    );
    return fits && more.length === 0 ? given : null;
  } catch {
    return null;
  }
}
