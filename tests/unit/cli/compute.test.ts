import { globSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { COMPUTE_FAULTS, computeFaultText } from '#lib/words/compute-fault.ts';
import { CATALOGUE } from '../../../src/cli/compute/catalogue.ts';
import { tradePage } from '../../../src/cli/compute/page.ts';
import { computeCommand, listCommand } from '../../../src/cli/compute.ts';
import { ROOT } from '../../../src/cli/ready.mjs';
import { asked, typed } from './terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-compute-'));
afterAll(() => rmSync(folder, { recursive: true }));

function inFile(text: string): string {
  const file = join(folder, 'given.json');
  writeFileSync(file, text);
  return file;
}

const compute = (name: string, text: string, locale: 'en' | 'es' = 'en') =>
  computeCommand({ name, file: inFile(text), out: '', points: '', svg: '', locale });

describe('from a terminal', () => {
  test('a function by its name, bad input and the list: one JSON on stdout, and the exit code', async () => {
    inFile('{"airC":25,"humidityPct":60}');
    expect(typed(folder, ['compute', 'dewPoint', 'given.json'])).toMatchObject({
      exit: 0,
      answer: { dewPointC: 16.697663521212892 },
      stderr: '',
    });
    expect(await asked(folder, ['compute', 'dewPoint', 'none.json'])).toMatchObject({
      exit: 2,
      answer: { error: { field: 'FILE', code: 'no-such-file' } },
    });
    expect(await asked(folder, ['compute', '--list'])).toEqual({
      exit: 0,
      answer: JSON.parse(JSON.stringify(listCommand().answer)) as unknown,
    });
    expect(await asked(folder, ['compute', 'dewPoint'], { LANG: 'es_MX.UTF-8' })).toEqual({
      exit: 2,
      answer: {
        error: { field: 'COMMAND', code: 'bad-arguments', message: 'Uso: layerbook compute --list | layerbook compute NAME FILE' },
      },
    });
  });
});

test.each([
  ['NaN as other programs write it', 'dewPoint', '{"airC": NaN, "humidityPct": 60}', 'airC', 'not-a-number'],
  ['an infinity', 'dewPoint', '{"airC": 20, "humidityPct": -Infinity}', 'humidityPct', 'not-a-number'],
  ['an infinity by size', 'dewPoint', '{"airC": 1e999, "humidityPct": 60}', 'airC', 'not-a-number'],
  [
    'NaN where null may stand',
    'filmVerdict',
    '{"readings": [{"fromUm": 1, "toUm": 2}], "minUm": NaN, "maxUm": null}',
    'minUm',
    'not-a-number',
  ],
  ['a text with a unit for a number', 'dewPoint', '{"airC": "70 F", "humidityPct": 60}', 'airC', 'not-a-number'],
  ['a field left out', 'dewPoint', '{"airC": 20}', 'humidityPct', 'not-a-number'],
  ['a field that is none', 'dewPoint', '{"airF": 70, "airC": 20, "humidityPct": 60}', 'airF', 'unknown-field'],
  ['a field of every object', 'dewPoint', '{"constructor": 1, "airC": 20, "humidityPct": 60}', 'constructor', 'unknown-field'],
  ['humidity 0', 'dewPoint', '{"airC": 20, "humidityPct": 0}', 'humidityPct', 'too-small'],
  ['humidity 101', 'dewPoint', '{"airC": 20, "humidityPct": 101}', 'humidityPct', 'too-large'],
  ['a unit alone in doubt', 'readTyped', '{"text": "63", "asked": ["in", "mm"]}', 'text', 'in-doubt'],
  ['no units asked for', 'readTyped', '{"text": "63", "asked": []}', 'asked', 'empty'],
  ['a unit nobody knows', 'readTyped', '{"text": "63", "asked": ["ell"]}', 'asked[0]', 'unknown-choice'],
  ['units of two dimensions', 'convert', '{"value": "1", "unit": "in", "to": "lb"}', 'to', 'other-dimension'],
  ['a value beyond what is held', 'convert', '{"value": "99999999999", "unit": "m", "to": "ft"}', 'value', 'out-of-range'],
  ['a number for a decimal text', 'convert', '{"value": 1, "unit": "in", "to": "mm"}', 'value', 'missing'],
  ['a text that is no decimal', 'printTyped', '{"value": "1e3", "unit": "in"}', 'value', 'not-a-number'],
  ['a reading turned round', 'judgeReading', '{"from": 3, "to": 2, "min": null, "max": null}', 'to', 'out-of-order'],
  ['a reading that is not whole', 'judgeReading', '{"from": 1.5, "to": 2, "min": null, "max": null}', 'from', 'not-a-number'],
  ['a reading of nothing', 'judgeReading', '{"from": null, "to": 2, "min": null, "max": null}', 'from', 'not-a-number'],
  ['an unknown gauge', 'combTeeth', '{"unit": "mm"}', 'unit', 'unknown-choice'],
  ['an unknown family', 'startingLimits', '{"family": "any", "water": "W1-I"}', 'family', 'unknown-choice'],
  ['an unknown profile', 'floodProfile', '{"key": "contract"}', 'key', 'unknown-choice'],
  [
    'a NaN inside a rule',
    'againstProfile',
    '{"profile": {"minDepthMm": NaN, "minHoldMs": null}, "depthMm": 1, "heldMs": 1}',
    'profile.minDepthMm',
    'not-a-number',
  ],
  ['a list', 'dewPoint', '[1]', 'FILE', 'not-an-object'],
  ['null', 'dewPoint', 'null', 'FILE', 'not-an-object'],
  ['no JSON', 'dewPoint', '{airC: 20}', 'FILE', 'not-json'],
  ['an empty file', 'dewPoint', '', 'FILE', 'not-json'],
  ['a function that is none', 'toString', '{}', 'NAME', 'unknown-function'],
])('%s is bad input, by field and code', async (_, name, text, field, code) => {
  const { exit, answer } = await compute(name, text);
  expect({ exit, answer }).toMatchObject({ exit: 2, answer: { error: { field, code } } });
  expect((answer as { error: { message: string } }).error.message).not.toBe('');
});

test('what stands in quotes stays as it is, and a mark of byte order is no fault', async () => {
  const given = { depthAt: 'drain', minDepthMm: 50, minHoldMs: 1000, source: 'NaN, "Infinity" \\' };
  expect(await compute('contractProfile', `\uFEFF${JSON.stringify(given)}`)).toMatchObject({ exit: 0, answer: { source: given.source } });
});

test('a doubtful text comes with what it could mean', async () => {
  expect(await compute('readTyped', '{"text": "1,500", "asked": ["L"]}', 'es')).toEqual({
    exit: 2,
    answer: {
      error: { field: 'text', code: 'in-doubt', message: 'text puede significar más de una cosa: 1500 L, 1.5000 L.' },
      offers: ['1500 L', '1.5000 L'],
    },
  });
});

test('each code has a sentence in both languages, and no code goes without', () => {
  const said = { field: 'here', bound: 1, offers: [], file: 'given.json' };
  const sentences = COMPUTE_FAULTS.flatMap((code) => (['en', 'es'] as const).map((locale) => computeFaultText({ ...said, code }, locale)));
  expect(new Set(sentences).size).toBe(2 * COMPUTE_FAULTS.length);
  expect(COMPUTE_FAULTS.filter((code) => !tradePage().includes(`\`${code}\``))).toEqual([]);
  expect(() => computeFaultText({ ...said, code: 'none' }, 'en')).toThrow(RangeError);
});

test.each(CATALOGUE.map((row) => [row.name, row] as const))(
  '%s computes its own example, and answers in the fields it names',
  async (name, row) => {
    expect(Object.keys(row.example).toSorted()).toEqual(Object.keys(row.inputs).toSorted());
    const { exit, answer } = await compute(name, JSON.stringify(row.example));
    expect(exit).toBe(0);
    expect(Object.keys(answer).filter((field) => !Object.hasOwn(row.result, field))).toEqual([]);
    for (const text of [row.what, row.source, row.limits, ...Object.values(row.inputs), ...Object.values(row.result)])
      expect(text).not.toBe('');
  },
);

/** Exported by a file of the trade for the others of the room, or under another name of the terminal. */
const NOT_CALLED = new Set([
  ...['airFault', 'wetAirFault', 'waitFaults', 'momentFaults', 'levelFaults', 'readingFaults', 'meanOf', 'evidenceOf'],
  ...['choiceFault', 'firstFault', 'flagFault', 'listFault', 'missingFault', 'numberFault', 'numbersFaults', 'orderFault', 'textFault'],
  // combTeeth, judgeReading, startingLimits; combReading is combInterval without SI.
  ...['exampleCombMil', 'exampleCombUm', 'judge', 'startersOf', 'combReading'],
]);

test('every function of the trade is in the list, once', () => {
  const names = CATALOGUE.map(({ name }) => name);
  expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
  const files = globSync('src/lib/trade/[a-z]*.ts', { cwd: ROOT });
  expect(files.length).toBeGreaterThan(15);
  const exported = files.flatMap((file) =>
    Array.from(readFileSync(join(ROOT, file), 'utf8').matchAll(/^export function (\w+)/gm), ([, name]) => name!),
  );
  expect(exported.filter((name) => !names.includes(name) && !NOT_CALLED.has(name))).toEqual([]);
});

test('docs/trade.md says what the list says: node src/cli/compute/write.ts > docs/trade.md', () => {
  expect(readFileSync(join(ROOT, 'docs/trade.md'), 'utf8')).toBe(tradePage());
});
