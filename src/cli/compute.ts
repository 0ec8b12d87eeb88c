import { readFile, stat } from 'node:fs/promises';
import { fail, ok, type Result } from '#lib/result.ts';
import { computeFaultText } from '#lib/words/compute-fault.ts';
import { CATALOGUE } from './compute/catalogue.ts';
import type { ComputeFault } from './compute/row.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';

/** Every function with inputs, units, result and source. */
export function listCommand(): Outcome {
  return { exit: 0, answer: { functions: CATALOGUE.map((row) => ({ ...row, call: undefined })) } };
}

/** Calls a function of the trade by its name with the JSON of a file. Exit 0 for whatever it answers, 2 for what it cannot take. */
export async function computeCommand({ name, file, locale }: Call): Promise<Outcome> {
  const computed = await compute(name, file);
  if (computed.ok) return { exit: 0, answer: computed.value };
  const { field, code, bound, offers } = computed.fault;
  const { exit, answer } = badInput(
    field,
    code,
    computeFaultText({ field, code, bound: bound ?? null, offers: offers ?? [], file }, locale),
  );
  return offers === undefined ? { exit, answer } : { exit, answer: { ...answer, offers } };
}

async function compute(name: string, file: string): Promise<Result<object, ComputeFault>> {
  const row = CATALOGUE.find((one) => one.name === name);
  if (row === undefined) return fail({ field: 'NAME', code: 'unknown-function' });
  const given = await givenIn(file);
  if (!given.ok) return given;
  const stranger = Object.keys(given.value).find((field) => !Object.hasOwn(row.inputs, field));
  return stranger === undefined ? row.call(given.value) : fail({ field: stranger, code: 'unknown-field' });
}

/** Larger than the longest list of readings any function takes. */
const MOST_BYTES = 16 * 1024 * 1024;

async function givenIn(file: string): Promise<Result<object, ComputeFault>> {
  let text: string;
  try {
    const { size } = await stat(file);
    if (size > MOST_BYTES) return fail({ field: 'FILE', code: 'too-large', bound: MOST_BYTES });
    text = await readFile(file, 'utf8');
  } catch {
    return fail({ field: 'FILE', code: 'no-such-file' });
  }
  try {
    const value: unknown = JSON.parse(spelled(text));
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? ok(value)
      : fail({ field: 'FILE', code: 'not-an-object' });
  } catch {
    return fail({ field: 'FILE', code: 'not-json' });
  }
}

/** Many programs write NaN and Infinity into JSON. As texts they get as far as the field they stand in, which then says that it is no number. */
function spelled(text: string): string {
  return text
    .replace(/^\uFEFF/, '')
    .replaceAll(/"(?:[^"\\]|\\.)*"|-?\b(?:NaN|Infinity)\b/g, (token) => (token.startsWith('"') ? token : `"${token}"`));
}
