import type { SetupFaultCode } from '#lib/job/setup-fields.ts';
import type { SaveFault } from '#lib/record/book.ts';
import type { ShelfFaultCode } from '#lib/record/shelf.ts';
import { overwriteGetLocale } from '#lib/words/compiled/runtime.js';
import { closedText, saveFaultText } from '#lib/words/save-fault.ts';
import { setupFaultText } from '#lib/words/setup-fault.ts';
import { afterAll, expect, test } from 'vitest';

let locale: 'en' | 'es' = 'en';
overwriteGetLocale(() => locale);
afterAll(() => overwriteGetLocale(() => 'en'));

const inBoth = (say: () => string) =>
  (['en', 'es'] as const).map((one) => {
    locale = one;
    return say();
  });

/** One of each: the compiler wants a new code here. */
const SETUP: Record<SetupFaultCode, true> = {
  empty: true,
  'too-long': true,
  'no-surface': true,
  'no-length': true,
  'same-name': true,
  'not-a-length': true,
  'no-unit': true,
  'not-a-value': true,
  'max-below-min': true,
  'no-value': true,
  'no-source': true,
  'no-scale': true,
  'too-large': true,
  'not-a-day': true,
  'day-in-doubt': true,
  'not-a-count': true,
  'left-over-opened': true,
  'no-file': true,
  'no-step': true,
  'no-place': true,
  'none-chosen': true,
  'not-a-turn': true,
  'gap-open': true,
  'other-way': true,
  'self-crossing': true,
  'self-touching': true,
  'zero-wall': true,
  'few-corners': true,
  'no-such-wall': true,
  'beyond-wall': true,
  'above-wall': true,
  'outside-floor': true,
  'benches-meet': true,
};
const STORE: Record<ShelfFaultCode, true> = { full: true, gone: true, blocked: true, newer: true, failed: true };
const READ_BACK: SaveFault = { code: 'read-back', detail: '' };

const SAID: [what: string, say: (code: string) => string, codes: string[]][] = [
  ['a field of the form', (code) => setupFaultText(code as SetupFaultCode), Object.keys(SETUP)],
  ['the closed book', (code) => closedText(code as ShelfFaultCode), Object.keys(STORE)],
  ['saving', (code) => saveFaultText({ code: 'not-saved', why: code as ShelfFaultCode }), Object.keys(STORE)],
  ['reading back', () => saveFaultText(READ_BACK), ['read-back']],
];

test.each(SAID)('what is wrong with %s is said in sentences of its own, in both languages', (_, say, codes) => {
  const texts = codes.map((code) => inBoth(() => say(code)));
  for (const [en, es] of texts) expect(en).not.toBe(es);
  for (const text of texts.flat()) expect(text).toMatch(/^[\p{Lu}¿¡][^{}!]+\.$/u);
  expect(new Set(texts.flat()).size).toBe(codes.length * 2);
});

test.each(['full', 'gone', 'blocked', 'newer', 'failed'] as const)('%s says first that it was not saved', (why) => {
  const [en, es] = inBoth(() => saveFaultText({ code: 'not-saved', why }));
  expect([en!.startsWith('Not saved'), es!.startsWith('No se guardó') || es!.startsWith('Sin guardar')]).toEqual([true, true]);
});
