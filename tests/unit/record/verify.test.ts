import { describe, expect, it } from 'vitest';
import { append, seal } from '#lib/record/append.ts';
import { archiveReadme } from '#lib/record/archive-readme.ts';
import { buildArchive } from '#lib/record/archive.ts';
import { Book } from '#lib/record/book.ts';
import { bodyHash } from '#lib/record/entry.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { unpack } from '#lib/record/unpack.ts';
import { verify, type Finding } from '#lib/record/verify.ts';
import { edit, filesOf, rebagged, zipOf, type Files } from '../../fixtures/forge.ts';
import { rawZip } from '../../fixtures/raw-zip.ts';
import { JOB, smallJob, writerOf } from '../../fixtures/small-job.ts';

const job = await smallJob();
async function archiveOf(raws: readonly string[], blob = job.blob): Promise<Blob> {
  const built = await buildArchive({ raws, blob, date: '2026-03-02' });
  if (!built.ok) throw new Error(built.fault.code);
  return built.value.blob;
}
const archive = await archiveOf(job.raws);
const top = 'layerbook-hall-bath';
const named = (folder: string) =>
  [...original.keys()].find((name) => name.includes(folder) && !name.endsWith('.png'))!.slice(top.length + 1);
const original = await filesOf(archive);
const photo = named('/photos/');
const sound = named('/sounds/');
const pdf = named('/records/');

describe('an archive that nobody changed', () => {
  it('is as written, and counts what it holds', async () => {
    const bytes = [...original.values()].reduce((sum, body) => sum + body.length, 0);
    expect(await verify(archive)).toEqual({
      verdict: 'as-written',
      job: JOB,
      findings: [],
      counts: { files: 11, named: 4, bytes, entries: job.raws.length, unknown: 0 },
    });
  });

  it('deflated by another program is rewritten, and nothing else', async () => {
    const zipped = rawZip([...original].map(([name, body]) => ({ name, body, deflate: true })));
    expect(await verify(zipped)).toMatchObject({ verdict: 'rewritten', findings: [] });
  });

  it('in another folder, or stored in another order, is rewritten', async () => {
    const moved: Files = new Map([...original].map(([name, body]) => [name.replace(top, 'copy-of-it'), body]));
    expect(await verify(await zipOf(moved))).toMatchObject({ verdict: 'rewritten', findings: [] });
    expect(await verify(rawZip([...original].reverse().map(([name, body]) => ({ name, body }))))).toMatchObject({
      verdict: 'rewritten',
      findings: [],
    });
  });

  it('of version 1, which knew no sounds, is as written too; of a version to come it says so, and is whole', async () => {
    const older: Files = new Map(original);
    edit(older, 'bag-info.txt', (text) => text.replace('Layerbook-Archive: 2', 'Layerbook-Archive: 1'));
    edit(older, 'data/readme.txt', () => archiveReadme('1'));
    expect(await verify(await rebagged(older))).toMatchObject({ verdict: 'as-written', findings: [] });
    const newer: Files = new Map(original);
    edit(newer, 'bag-info.txt', (text) => text.replace('Layerbook-Archive: 2', 'Layerbook-Archive: 9'));
    edit(newer, 'data/readme.txt', (text) => `${text}More.\n`);
    const finding = { code: 'newer-archive', version: '9' };
    expect(await verify(await rebagged(newer))).toMatchObject({ verdict: 'rewritten', findings: [finding] });
  });

  it('but not with the readme of another version than its own', async () => {
    const mixed: Files = new Map(original);
    edit(mixed, 'data/readme.txt', () => archiveReadme('1'));
    await expectChanged(await rebagged(mixed), [{ code: 'changed-file', file: 'data/readme.txt' }]);
  });

  it('with a tag of another program in bag-info.txt is rewritten', async () => {
    const tagged: Files = new Map(original);
    edit(tagged, 'bag-info.txt', (text) => `${text}Source-Organization: Somebody\n`);
    expect(await verify(await rebagged(tagged))).toMatchObject({ verdict: 'rewritten', findings: [] });
  });

  it('whose book did not hold a picture says so, and is as written', async () => {
    const sha256 = photo.slice('data/photos/'.length, -4);
    const blob = async (one: string) => (one === sha256 ? null : job.blob(one));
    expect(await verify(await archiveOf(job.raws, blob))).toMatchObject({
      verdict: 'as-written',
      findings: [{ code: 'not-held', file: photo }],
    });
  });

  it('with an entry of an unknown kind, and a file only that entry names, is as written and counts it', async () => {
    const sketch = new TextEncoder().encode('a sketch');
    const book = new Book(new MemoryShelf());
    const ana = writerOf('phone-a', 'ana', 7);
    const first = await append(book, JOB, [{ kind: 'person', data: { person: 'ana', name: 'Ana' } }], [], ana);
    if (!first.ok) throw new Error(first.fault.code);
    // What a newer version would seal: its own kind under the same envelope.
    const known = await seal({ kind: 'person', data: { person: 'x', name: 'x' } }, JOB, await book.head(JOB, 'phone-a'), ana, ana.now());
    const body = { ...(JSON.parse(known.raw) as { body: object }).body, kind: 'sketch', data: { drawing: sha256Hex(sketch) } };
    const hash = bodyHash(body);
    const hex = await ana.signer.sign(Uint8Array.from(hash.match(/../g)!, (pair) => parseInt(pair, 16)));
    const raw = canonicalText({ body, hash, sig: { alg: 'ed25519', hex } });
    const files = await filesOf(await archiveOf([...first.value.map((entry) => entry.raw), raw]));
    files.set(`${top}/data/sketches/${sha256Hex(sketch)}.svg`, sketch);
    expect(await verify(await rebagged(files))).toMatchObject({ verdict: 'as-written', findings: [], counts: { entries: 3, unknown: 1 } });
  });
});

const log = 'data/log/phone-a.jsonl';
const lines = (change: (all: string[]) => string[]) => (files: Files) =>
  edit(files, log, (text) =>
    change(text.trimEnd().split('\n'))
      .map((line) => `${line}\n`)
      .join(''),
  );
const at = (code: Finding['code'], seq: number) => ({ code, device: 'phone-a', seq });

describe('what was changed is named', () => {
  const cases: [name: string, change: (files: Files) => void, findings: object[]][] = [
    ['a photo', (f) => edit(f, photo, (text) => `${text}.`), [{ code: 'changed-file', file: photo }, { code: 'oxum-differs' }]],
    ['a photo taken out', (f) => f.delete(`${top}/${photo}`), [{ code: 'missing-file', file: photo }, { code: 'oxum-differs' }]],
    [
      'a file put in',
      (f) => f.set(`${top}/data/photos/x.jpg`, new Uint8Array(3)),
      [{ code: 'extra-file', file: 'data/photos/x.jpg' }, { code: 'oxum-differs' }, { code: 'unnamed-file' }],
    ],
    ['a file put beside the bag', (f) => f.set('note.txt', new Uint8Array(3)), [{ code: 'extra-file', file: 'note.txt' }]],
    ['a tag file put in', (f) => f.set(`${top}/note.txt`, new Uint8Array(3)), [{ code: 'extra-file', file: 'note.txt' }]],
    [
      'a photo renamed',
      rename,
      [{ code: 'missing-file', file: photo }, { code: 'extra-file' }, { code: 'changed-file' }, { code: 'unnamed-file' }],
    ],
    [
      'bag-info.txt',
      (f) => edit(f, 'bag-info.txt', (text) => text.replace('03-02', '03-01')),
      [{ code: 'changed-file', file: 'bag-info.txt' }],
    ],
    ['bag-info.txt taken out', (f) => f.delete(`${top}/bag-info.txt`), [{ code: 'missing-file', file: 'bag-info.txt' }]],
    ['bagit.txt taken out', (f) => f.delete(`${top}/bagit.txt`), [{ code: 'missing-file', file: 'bagit.txt' }]],
    ['the manifest taken out', (f) => f.delete(`${top}/manifest-sha256.txt`), [{ code: 'missing-file', file: 'manifest-sha256.txt' }]],
    [
      'the tag manifest taken out',
      (f) => f.delete(`${top}/tagmanifest-sha256.txt`),
      [{ code: 'missing-file', file: 'tagmanifest-sha256.txt' }],
    ],
    [
      'a line of the manifest',
      (f) => edit(f, '/manifest-sha256.txt', (text) => text.replace('  ', ' ')),
      [
        { code: 'manifest-line', file: 'manifest-sha256.txt', line: 1 },
        { code: 'changed-file', file: 'manifest-sha256.txt' },
      ],
    ],
  ];
  for (const [name, change, findings] of cases) {
    it(name, async () => {
      const files: Files = new Map(original);
      change(files);
      await expectChanged(await zipOf(files), findings);
    });
  }
});

describe('what was changed by a forger, counts and manifests made to fit, is named by the log', () => {
  const cases: [name: string, change: (files: Files) => void, findings: object[]][] = [
    ['a photo', (f) => edit(f, photo, (text) => `${text}.`), [{ code: 'changed-file', file: photo }]],
    ['a photo taken out', (f) => f.delete(`${top}/${photo}`), [{ code: 'missing-file', file: photo }]],
    [
      'a photo put in',
      (f) => f.set(`${top}/data/photos/${sha256Hex(new Uint8Array(3))}.jpg`, new Uint8Array(3)),
      [{ code: 'unnamed-file' }],
    ],
    ['a voice note', (f) => edit(f, sound, (text) => `${text}.`), [{ code: 'changed-file', file: sound }]],
    ['a voice note taken out', (f) => f.delete(`${top}/${sound}`), [{ code: 'missing-file', file: sound }]],
    ['the record taken out', (f) => f.delete(`${top}/${pdf}`), [{ code: 'missing-file', file: pdf }]],
    [
      'a log of a phone that never was',
      (f) => f.set(`${top}/data/log/phone-z.jsonl`, new Uint8Array(0)),
      [{ code: 'unnamed-file', file: 'data/log/phone-z.jsonl' }],
    ],
    ['the readme', (f) => edit(f, 'readme.txt', () => 'Trust it.\n'), [{ code: 'changed-file', file: 'data/readme.txt' }]],
    ['the readme taken out', (f) => f.delete(`${top}/data/readme.txt`), [{ code: 'missing-file', file: 'data/readme.txt' }]],
    [
      'a line of the log taken out',
      lines(([a, b, c, , ...rest]) => [a!, b!, c!, ...rest]),
      [at('gap', 4), at('head-differs', 3), { code: 'unnamed-file', file: sound }],
    ],
    [
      'two lines of the log in the other order',
      lines(([a, b, c, ...rest]) => [a!, c!, b!, ...rest]),
      [{ code: 'entry-misplaced', file: log, line: 3 }],
    ],
    ['an entry', lines((all) => all.map((line) => line.replace('12 Elm St', '14 Elm St'))), [at('hash-differs', 1)]],
    [
      'an entry and its hash',
      lines((all) => all.map((line) => rehashed(line, 'Elm', 'Oak'))),
      [at('signature-fails', 1), at('link-broken', 2)],
    ],
    [
      'a signature',
      lines((all) => all.map((line) => line.replace(/"hex":"../, '"hex":"00'))),
      [0, 1, 2, 3, 4].map((seq) => at('signature-fails', seq)),
    ],
    ['a line that is no entry', lines((all) => [...all, 'and then some']), [{ code: 'entry-unreadable', file: log, line: 6 }]],
    ['an empty line', lines((all) => [...all, '']), [{ code: 'entry-unreadable', file: log, line: 6 }]],
    [
      'bytes that are no text',
      (f) => f.set(`${top}/${log}`, Uint8Array.of(...f.get(`${top}/${log}`)!, 0xff)),
      [
        { code: 'changed-file', file: log },
        { code: 'entry-unreadable', file: log, line: 6 },
      ],
    ],
    [
      'the last line of the log',
      lines((all) => all.slice(0, -1)),
      [at('head-differs', 3), at('head-differs', 4), { code: 'unnamed-file', file: pdf }],
    ],
    [
      'the log of another phone',
      (f) => f.delete(`${top}/data/log/phone-b.jsonl`),
      [{ code: 'head-differs', device: 'phone-b', seq: 2 }, { code: 'unnamed-file' }],
    ],
    [
      'all logs',
      dropLogs,
      [{ code: 'missing-file', file: 'data/log' }, at('head-differs', 4), { code: 'head-differs', device: 'phone-b' }],
    ],
    [
      'the job in bag-info.txt',
      (f) => edit(f, 'bag-info.txt', (text) => text.replace(': hall-bath', ': den')),
      [{ code: 'entry-misplaced', file: log, line: 1 }],
    ],
    [
      'the version of the archive taken out',
      (f) => edit(f, 'bag-info.txt', (text) => text.replace(/Layerbook-Archive.*\n/, '')),
      [{ code: 'changed-file', file: 'bag-info.txt' }],
    ],
    [
      'the log under the name of another phone',
      (f) => f.set(`${top}/data/log/phone-c.jsonl`, take(f, `${top}/${log}`)),
      [{ code: 'entry-misplaced', file: 'data/log/phone-c.jsonl', line: 1 }, { code: 'unnamed-file' }],
    ],
  ];
  for (const [name, change, findings] of cases) {
    it(name, async () => {
      const files: Files = new Map(original);
      change(files);
      await expectChanged(await rebagged(files), findings);
    });
  }
});

describe('what an archive alone cannot tell (docs/format.md says so)', () => {
  it('the end of every log cut off, heads, counts and manifests made to fit', async () => {
    const cut = await archiveOf(job.raws.filter((raw) => !raw.includes('"kind":"record"')));
    expect((await verify(cut)).verdict).toBe('as-written');
  });

  it('but a record inside holds the end of the other logs', async () => {
    const cut = await archiveOf(job.raws.filter((raw) => !raw.startsWith('{"body":{"by":"ben"') || !raw.includes('"seq":2')));
    expect(await verify(cut)).toMatchObject({ verdict: 'changed', findings: [{ code: 'head-differs', device: 'phone-b', seq: 2 }] });
  });
});

describe('what is no archive of ours is unreadable, and says why', () => {
  const cases: [name: string, container: Blob, finding: object][] = [
    ['nothing', new Blob([]), { code: 'not-a-zip' }],
    ['a text', new Blob(['no ZIP at all '.repeat(9)]), { code: 'not-a-zip' }],
    ['half an archive', archive.slice(0, archive.size / 2), { code: 'not-a-zip' }],
    ['an archive less its last byte', archive.slice(0, -1), { code: 'not-a-zip' }],
    ['an archive with a byte after it', new Blob([archive, 'x']), { code: 'not-a-zip' }],
    ['another ZIP', rawZip([{ name: 'a.txt' }]), { code: 'not-an-archive' }],
    ['two archives in one', rawZip(['a', 'b'].map((name) => ({ name: `${name}/bagit.txt` }))), { code: 'not-an-archive' }],
  ];
  for (const [name, container, finding] of cases) {
    it(name, async () => {
      const result = await verify(container);
      expect(result).toMatchObject({ verdict: 'unreadable', job: null });
      expect(result.findings).toEqual([expect.objectContaining(finding)]);
    });
  }
});

describe('unpack', () => {
  for (const [name, container] of [
    ['as written', archive],
    ['deflated', rawZip([...original].map(([path, body]) => ({ name: path, body, deflate: true })))],
  ] as const) {
    it(`gives log, bytes and types back: ${name}`, async () => {
      const content = await unpack(container);
      if (!content.ok) throw new Error(content.fault.code);
      expect(content.value.entries.map((entry) => entry.raw)).toEqual(job.raws);
      for (const [sha256, blob] of job.blobs) {
        const back = await content.value.blob(sha256);
        expect([back?.type, await back?.text()]).toEqual([blob.type, await blob.text()]);
      }
      expect(await content.value.blob('0'.repeat(64))).toBeNull();
    });
  }

  it('gives no bytes that are not what their name says', async () => {
    const files: Files = new Map(original);
    edit(files, photo, (text) => `${text}.`);
    const content = await unpack(await rebagged(files));
    expect(content.ok && (await content.value.blob(photo.slice('data/photos/'.length, -4)))).toBeNull();
  });

  it('stops at a line that is no entry, with its place', async () => {
    const files: Files = new Map(original);
    lines((all) => ['{', ...all])(files);
    expect(await unpack(await zipOf(files))).toEqual({ ok: false, fault: { code: 'entry-not-json', at: `${log} line 1` } });
  });
});

async function expectChanged(container: Blob, findings: object[]): Promise<void> {
  const result = await verify(container);
  expect(result.verdict).toBe('changed');
  expect(result.findings).toEqual(expect.arrayContaining(findings.map((finding): unknown => expect.objectContaining(finding))));
  expect(new Set(result.findings.map(({ code }) => code))).toEqual(new Set(findings.map((finding) => (finding as Finding).code)));
}

function rename(files: Files): void {
  files.set(`${top}/data/photos/${'0'.repeat(64)}.jpg`, take(files, `${top}/${photo}`));
}
function dropLogs(files: Files): void {
  for (const name of [...files.keys()]) if (/data\/(?:log|photos|sounds|records)/.test(name)) files.delete(name);
}
function take(files: Files, name: string): Uint8Array<ArrayBuffer> {
  const body = files.get(name)!;
  files.delete(name);
  return body;
}
function rehashed(line: string, from: string, to: string): string {
  if (!line.includes(from)) return line;
  const envelope = JSON.parse(line.replace(from, to)) as { body: unknown; hash: string };
  return canonicalText({ ...envelope, hash: bodyHash(envelope.body) });
}
