import { describe, expect, it } from 'vitest';
import { readEntry, RAW_MAX } from '#lib/record/entry.ts';
import { KINDS, known } from '#lib/record/kinds.ts';
import { chain } from '../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';
import { smallJob } from '../../fixtures/small-job.ts';

const raw = (await smallJob()).raws[1]!;
const changed = (change: (envelope: { body: Record<string, unknown>; hash: unknown; sig: unknown }) => void): string => {
  const envelope = JSON.parse(raw) as Parameters<typeof change>[0];
  change(envelope);
  return JSON.stringify(envelope);
};

it('a sealed entry reads, and keeps its text as it came', () => {
  const read = readEntry(raw, 'here');
  expect(read).toMatchObject({ ok: true, value: { raw, body: { kind: 'job', job: 'hall-bath', seq: 1 } } });
});

describe('what is no entry is a fault that names the field', () => {
  const cases: [name: string, raw: string, fault: object][] = [
    ['no JSON', '{"body":', { code: 'entry-not-json', at: 'here' }],
    ['nothing', '', { code: 'entry-not-json', at: 'here' }],
    ['a list', '[]', { code: 'entry-shape', at: 'here', field: '' }],
    ['two lines', raw.replace(',"hash"', ',\n"hash"'), { code: 'entry-shape', field: '$', message: 'more than one line' }],
    ['too long', ' '.repeat(RAW_MAX + 1), { code: 'entry-shape', field: '$' }],
    ['hash in upper case', changed((e) => (e.hash = String(e.hash).toUpperCase())), { code: 'entry-shape', field: 'hash' }],
    ['a job that is no file name', changed((e) => (e.body['job'] = '../x')), { code: 'entry-shape', field: 'body.job' }],
    ['an id in capitals', changed((e) => (e.body['id'] = 'Ana')), { code: 'entry-shape', field: 'body.id' }],
    ['a negative place', changed((e) => (e.body['seq'] = -1)), { code: 'entry-shape', field: 'body.seq' }],
    [
      'a clock without zone',
      changed((e) => (e.body['times'] = { utc: '2026-03-02 14:00' })),
      { code: 'entry-shape', field: 'body.times.utc' },
    ],
    ['no signature, unsaid', changed((e) => (e.sig = {})), { code: 'entry-shape', field: 'sig.alg' }],
  ];
  for (const [name, text, fault] of cases) it(name, () => expect(readEntry(text, 'here')).toMatchObject({ ok: false, fault }));
});

describe('what a newer version wrote survives', () => {
  it('an unknown field, in body and data', () => {
    const text = changed((e) => {
      e.body['mood'] = 'dry';
      e.body['data'] = { ...(e.body['data'] as object), permit: 'B-12' };
    });
    const read = readEntry(text, 'here');
    expect(read).toMatchObject({ ok: true, value: { raw: text, body: { mood: 'dry' } } });
    expect(read.ok && known(read.value)).toMatchObject({ kind: 'job', data: { permit: 'B-12' } });
  });
  it('an unknown kind', () => {
    const read = readEntry(
      changed((e) => (e.body['kind'] = 'moisture-map')),
      'here',
    );
    expect(read.ok && known(read.value)).toEqual({ kind: 'unknown' });
  });
  it('a known kind in a shape of tomorrow', () => {
    const read = readEntry(
      changed((e) => (e.body['data'] = { name: ['a', 'b'] })),
      'here',
    );
    expect(read.ok && known(read.value)).toEqual({ kind: 'unknown' });
  });
  it('a kind named like something every object has', () => {
    const read = readEntry(
      changed((e) => (e.body['kind'] = 'constructor')),
      'here',
    );
    expect(read.ok && known(read.value)).toEqual({ kind: 'unknown' });
  });
});

describe('every kind of this version', () => {
  const entry = (kind: string, data: object) => chain('a', [{ kind, data }])[0]!;
  for (const [kind, data] of Object.entries(ONE_OF_EACH)) {
    it(`${kind} reads as itself, with its own fields`, () => expect(known(entry(kind, data))).toEqual({ kind, data }));
    it(`${kind} with a field of a newer version reads as itself, and keeps it`, () =>
      expect(known(entry(kind, { ...data, ofTomorrow: ['x'] }))).toEqual({ kind, data: { ...data, ofTomorrow: ['x'] } }));
    it(`${kind} without what it needs is of a newer version`, () =>
      expect(known(entry(kind, {}))).toEqual({
        kind: kind === 'conditions' ? kind : 'unknown',
        ...(kind === 'conditions' && { data: {} }),
      }));
  }
  it('is among them', () => expect(Object.keys(ONE_OF_EACH).toSorted()).toEqual([...KINDS].toSorted()));
});

describe('what 0.1.0 wrote reads as it did', () => {
  const cases: [kind: string, data: object][] = [
    ['job', { name: 'Hall bath', address: '', units: 'in', lang: 'en' }],
    ['surface', { surface: 'n', name: 'North', place: 'wall', system: 'sheet' }],
    ['limit', { limit: 'l', what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'code', text: 'p. 2' } }],
    ['run-start', { step: 'bond-sheets', surfaces: [] }],
    ['run-stop', { end: 'about' }],
    ['shot', { picture: { sha256: 'a'.repeat(64), bytes: 9, type: 'image/jpeg' }, from: 'file', surface: null }],
    ['reading', { what: 'wet-film', surface: null, said: { text: '26-28', value: '26', to: '28', unit: 'mil' }, how: 'comb' }],
    ['clock-jump', { wallDeltaMs: -7_200_000, monoDeltaMs: null }],
  ];
  for (const [kind, data] of cases) it(kind, () => expect(known(chain('a', [{ kind, data }])[0]!)).toEqual({ kind, data }));
});
