import { describe, expect, it } from 'vitest';
import { buildArchive } from '#lib/record/archive.ts';
import { archiveReadme } from '#lib/record/archive-readme.ts';
import { verify } from '#lib/record/verify.ts';
import { capsFor, type ZipFault } from '#lib/record/zip-read.ts';
import { filesOf } from '../fixtures/forge.ts';
import { rawZip, type RawFile } from '../fixtures/raw-zip.ts';
import { tinyJob } from '../fixtures/small-job.ts';

const MB = 1024 * 1024;

// After Fifield, "A better zip bomb" (2019): the local header of one file lies among the bytes of another.
const inner = new Uint8Array(
  await rawZip([{ name: 'bag/a.txt', body: new Uint8Array(99) }])
    .slice(0, 30 + 9 + 99)
    .arrayBuffer(),
);
const quoted = rawZip([
  { name: 'bag/bagit.txt', body: inner },
  { name: 'bag/a.txt', body: new Uint8Array(99), offset: 30 + 13 },
]);

describe('a hostile container is refused, and the file named', () => {
  const beside = (...files: RawFile[]) => rawZip([{ name: 'bag/bagit.txt' }, ...files]);
  const zeros = (name: string, bytes: number): RawFile => ({ name, body: new Uint8Array(bytes), deflate: true });
  const badNames = [
    ['a way up', '../../etc/x.txt'],
    ['a way up in the middle', 'bag/../x.txt'],
    ['a folder that leads up', 'bag/../'],
    ['an absolute path', '/etc/x.txt'],
    ['a drive letter', 'c:x.txt'],
    ['a stream of a file', 'bag/a.txt:x'],
    ['a backslash', '..\\x.txt'],
    ['an empty part', 'bag//a.txt'],
    ['a part of one dot', 'bag/./a.txt'],
    ['no name', ''],
    ['a NUL', 'bag/a.txt\0.jpg'],
    ['a line break', 'bag/a\n.txt'],
    ['text turned right to left', 'bag/\u202etxt.exe'],
  ] as const;
  const cases: [name: string, container: Blob, fault: Partial<ZipFault>][] = [
    ...badNames.map(([name, file]): [string, Blob, Partial<ZipFault>] => [name, beside({ name: file }), { code: 'bad-name', file }]),
    ['a name twice', beside({ name: 'bag/a.txt' }, { name: 'bag/a.txt' }), { code: 'duplicate-name', file: 'bag/a.txt' }],
    ['an encrypted file', beside({ name: 'bag/a.txt', flags: 1 }), { code: 'encrypted', file: 'bag/a.txt' }],
    ['a bomb', beside(zeros('bag/a.txt', 80 * MB)), { code: 'too-big', file: 'bag/a.txt' }],
    [
      'a bomb in parts',
      beside(...['a', 'b', 'c'].map((name) => zeros(`bag/${name}.txt`, 27 * MB))),
      { code: 'too-big', file: 'bag/c.txt' },
    ],
    ['files that share their bytes', quoted, { code: 'overlap', file: 'bag/a.txt' }],
    ['70,000 files', rawZip(Array.from({ length: 70_000 }, (_, i) => ({ name: `bag/${i}.txt` }))), { code: 'too-many-files', max: 65_534 }],
  ];
  for (const [name, container, fault] of cases) {
    it(name, async () => {
      const result = await verify(container);
      expect(result.verdict).toBe('unreadable');
      expect(result.findings).toEqual([expect.objectContaining(fault)]);
    });
  }

  it('the caps let through what a real archive can be', () => {
    // A log shrinks about tenfold; an archive of stored photos does not grow at all.
    expect(capsFor(3 * 1024 * MB)).toEqual({ files: 65_534, fileBytes: 1024 * MB, totalBytes: 2 ** 32 - 2 });
    expect(capsFor(0).totalBytes).toBe(64 * MB);
  });
});

describe('a file that lies about itself is damaged, and named', () => {
  const body = new Uint8Array(1000).fill(65);
  const cases: [name: string, file: RawFile][] = [
    ['it says fewer bytes than come out', { name: 'bag/a.txt', body, deflate: true, saysBytes: 10 }],
    ['it says more bytes than come out', { name: 'bag/a.txt', body, deflate: true, saysBytes: 99_999 }],
    ['it is stored, with two sizes', { name: 'bag/a.txt', body, saysBytes: 10 }],
    ['its own header has another name', { name: 'bag/a.txt', localName: 'bag/b.txt' }],
    ['it lies beyond the end', { name: 'bag/a.txt', body, offset: 2 ** 31 }],
  ];
  for (const [name, file] of cases) {
    it(name, async () => {
      const result = await verify(rawZip([{ name: 'bag/bagit.txt' }, file]));
      expect(result.findings[0]).toMatchObject({ code: 'damaged-file', file: 'a.txt' });
      expect(result.verdict).toBe('changed');
    });
  }
});

const job = await tinyJob();
const built = await buildArchive({ raws: job.raws, blob: job.blob, date: '2026-03-02' });
if (!built.ok) throw new Error(built.fault.code);
const whole = new Uint8Array(await built.value.blob.arrayBuffer());
const files = [...(await filesOf(built.value.blob))].sort(([a], [b]) => (a < b ? -1 : 1));

describe('an archive damaged anywhere is never as written', () => {
  it('undamaged, it is', async () => expect((await verify(built.value.blob)).verdict).toBe('as-written'));

  const withBit = (at: number): Blob => {
    const bytes = whole.slice();
    bytes[at]! ^= 1 << ((at * 5) % 8);
    return new Blob([bytes]);
  };

  let end = 0;
  for (const [name, { length }] of files) {
    const path = name.slice(name.indexOf('/') + 1);
    const header = end;
    const first = header + 30 + name.length;
    const last = (end = first + length) - 1;
    const short = path.replace(/[0-9a-f]{60}/, '');
    // The readme is half of these bytes, and none of them differs from another to the code.
    const step = length === new TextEncoder().encode(archiveReadme('2')).length ? 97 : 1;
    // Nothing lists the tag manifest; a bit of it shows as the file it then seems to list.
    const named = path === 'tagmanifest-sha256.txt' ? /"file":"[a-z-]+\w*\.txt"|manifest-line/ : new RegExp(`"${path}"`);
    it(`one bit of ${short}: that file is named`, async () => {
      for (let at = first; at <= last; at += step) {
        const result = await verify(withBit(at));
        expect(result.verdict, `byte ${at}`).not.toMatch(/as-written|rewritten/);
        expect(JSON.stringify(result.findings), `byte ${at}`).toMatch(named);
      }
    });
    it(`one bit of the header of ${short}: told, and named unless the content is whole`, async () => {
      for (let at = header; at < first; at += 1) await expectTold(withBit(at), at);
    });
  }

  it('one bit of the directory: told, and named unless the content is whole', async () => {
    for (let at = end; at < whole.length; at += 1) await expectTold(withBit(at), at);
  });

  async function expectTold(container: Blob, at: number): Promise<void> {
    const { verdict, findings } = await verify(container);
    expect(verdict, `byte ${at}`).not.toBe('as-written');
    expect(verdict === 'rewritten' || findings.length > 0, `byte ${at}`).toBe(true);
  }

  it('cut short at any length: unreadable', async () => {
    for (let length = 0; length < whole.length; length += 61) {
      expect((await verify(new Blob([whole.slice(0, length)]))).verdict, `${length} bytes`).toBe('unreadable');
    }
  });

  it('a piece cut out, put in twice, or swapped with its neighbour, 200 times', async () => {
    // Numerical Recipes' linear congruential generator; a fixed seed, so that a failure is the same failure tomorrow.
    let seed = 20260302;
    const chance = (below: number) => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) % below;
    for (let round = 0; round < 200; round++) {
      const at = chance(whole.length - 400);
      const size = 1 + chance(200);
      const [a, b, c, d] = [
        whole.slice(0, at),
        whole.slice(at, at + size),
        whole.slice(at + size, at + 2 * size),
        whole.slice(at + 2 * size),
      ];
      const parts = [
        [a, c, d],
        [a, b, b, c, d],
        [a, c, b, d],
      ][round % 3]!;
      const container = new Blob(parts);
      const same = container.size === whole.length && b.every((byte, i) => byte === c[i]);
      if (!same) expect((await verify(container)).verdict, `round ${round}`).not.toBe('as-written');
    }
  });
});
