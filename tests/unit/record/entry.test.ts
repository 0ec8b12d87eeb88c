import { describe, expect, it } from 'vitest';
import { readEntry, RAW_MAX } from '#lib/record/entry.ts';
import { known } from '#lib/record/kinds.ts';
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
