import { describe, expect, it } from 'vitest';
import { seal, type Writer } from '#lib/record/append.ts';
import type { Head } from '#lib/record/book.ts';
import { HARMLESS, verifyChains, type ChainFinding } from '#lib/record/chain.ts';
import { bodyHash, readEntry, type Entry } from '#lib/record/entry.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { JOB, writerOf } from '../../fixtures/small-job.ts';

const ana = writerOf('phone-a', 'ana', 7);
const mallory = writerOf('phone-a', 'ana', 9);
const unsigned = writerOf('phone-a', 'ana', null);

const named = (person: string): Draft => ({ kind: 'person', data: { person, name: person } });
const device = (writer: Writer): Draft => ({
  kind: 'device',
  data: {
    key: writer.signer.publicKey === null ? { alg: 'none', why: 'no-key-store' } : { alg: 'ed25519', public: writer.signer.publicKey },
  },
});

async function chain(writer: Writer, drafts: readonly Draft[], from: Entry | null = null): Promise<Entry[]> {
  const entries: Entry[] = [];
  let before = from;
  for (const draft of drafts) {
    const head: Head | null = before && {
      job: JOB,
      device: writer.device,
      seq: before.body.seq,
      hash: before.hash,
      times: before.body.times,
    };
    before = await seal(draft, JOB, head, writer, writer.now());
    entries.push(before);
  }
  return entries;
}

/** Edits an entry's text as a forger would; with `rehash` he also makes the hash fit. */
function edited(entry: Entry, change: (body: Record<string, unknown>) => void, rehash = false): Entry {
  const envelope = JSON.parse(entry.raw) as { body: Record<string, unknown>; hash: string };
  change(envelope.body);
  if (rehash) envelope.hash = bodyHash(envelope.body);
  return reread(JSON.stringify(envelope));
}
function reread(raw: string): Entry {
  const read = readEntry(raw, 'test');
  if (!read.ok) throw new Error(read.fault.code);
  return read.value;
}

const honest = await chain(ana, [device(ana), named('ana'), named('ben'), named('cho')]);
const [zero, one, two, three] = honest as [Entry, Entry, Entry, Entry];
const rename = (body: Record<string, unknown>) => (body['data'] = { name: 'Somebody', person: 'ana' });
const at = (code: ChainFinding['code'], seq: number, expected?: number) => ({
  code,
  device: 'phone-a',
  seq,
  ...(expected === undefined ? {} : { expected }),
});

const silent = await chain(unsigned, [device(unsigned), named('ana')]);
const otherKey = await chain(mallory, [named('ben')], one);
const headless = await chain(ana, [named('ana')]);

describe('verifyChains', () => {
  const cases: [name: string, entries: Entry[], findings: object[]][] = [
    ['an honest chain', honest, []],
    ['an honest chain, handed over backwards', [...honest].reverse(), []],
    ['an honest phone that cannot hold a key', silent, [at('unsigned', 0), at('unsigned', 1)]],
    ['a body edited', [zero, edited(one, rename), two, three], [at('hash-differs', 1)]],
    ['a body edited, hash made to fit', [zero, edited(one, rename, true), two, three], [at('signature-fails', 1), at('link-broken', 2)]],
    ['an entry taken out', [zero, one, three], [at('gap', 3, 2)]],
    [
      'the first entry taken out',
      [one, two, three],
      [at('no-device-entry', 1), at('gap', 1, 0), ...[1, 2, 3].map((seq) => at('signature-fails', seq))],
    ],
    [
      'an entry put in twice with other words',
      [zero, one, edited(one, rename, true), two, three],
      [at('fork', 1), at('signature-fails', 1), at('link-broken', 2)],
    ],
    ['an entry signed by another key', [zero, one, ...otherKey], [at('signature-fails', 2)]],
    ['a signature taken off', [zero, one, two, reread(three.raw.replace(/"sig":.*/, '"sig":{"alg":"none"}}'))], [at('signature-fails', 3)]],
    [
      'a place in the chain changed',
      [zero, one, two, edited(three, (body) => (body['seq'] = 9), true)],
      [at('gap', 9, 3), at('signature-fails', 9)],
    ],
    ['the same entry in other white space', [zero, one, two, reread(three.raw.replace('"hash":', '"hash": '))], [at('not-canonical', 3)]],
    ['a field given twice', [zero, one, two, reread(three.raw.replace('{"body":', '{"body":{},"body":'))], [at('not-canonical', 3)]],
    ['a number no language need keep', [zero, one, two, reread(three.raw.replace('"v":1', '"v":1,"w":0.1'))], [at('hash-differs', 3)]],
    ['a chain without its device entry', headless, [at('no-device-entry', 0), at('signature-fails', 0)]],
  ];
  for (const [name, entries, findings] of cases) {
    it(name, () => {
      const found = verifyChains(entries);
      expect(found).toEqual(expect.arrayContaining(findings));
      expect(found).toHaveLength(findings.length);
    });
  }
});

it('only an unsigned entry is harmless', () => expect([...HARMLESS]).toEqual(['unsigned']));

it('what a chain cannot tell: its end cut off, or all of it written anew under another key', async () => {
  expect(verifyChains(honest.slice(0, 2))).toEqual([]);
  expect(verifyChains(await chain(mallory, [device(mallory), named('eve')]))).toEqual([]);
});
