import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { afterAll, describe, expect, it } from 'vitest';
import { digestOf, PIECE_BYTES, sameBytes } from '#lib/record/digest.ts';
import { openZip } from '#lib/record/zip-read.ts';
import { MAX_BYTES, MAX_FILES, OWN_NAME, zipStored } from '#lib/record/zip-write.ts';
import { filesOf, zipOf } from '../../fixtures/forge.ts';
import { rawZip } from '../../fixtures/raw-zip.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-zip-'));
afterAll(() => rmSync(folder, { recursive: true }));

const bytesOf = (text: string) => new TextEncoder().encode(text);
const noise = new Uint8Array(PIECE_BYTES + 17).map((_, i) => (i * 2654435761) >>> 13);

describe('digestOf', () => {
  // CRC-32 check value of "123456789" is CBF43926 (catalogue of parametrised CRCs, CRC-32/ISO-HDLC); SHA-256 of "abc": FIPS 180-4.
  const cases: [name: string, bytes: Uint8Array<ArrayBuffer>, expected: object][] = [
    ['nothing', bytesOf(''), { bytes: 0, crc32: 0 }],
    ['123456789', bytesOf('123456789'), { bytes: 9, crc32: 0xcbf43926 }],
    ['abc', bytesOf('abc'), { bytes: 3, sha256: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad' }],
    ['more than one piece', noise, { bytes: noise.length, crc32: crc32(noise) }],
  ];
  for (const [name, bytes, expected] of cases) it(name, async () => expect(await digestOf(new Blob([bytes]))).toMatchObject(expected));
});

it('sameBytes tells the last byte of a second piece', async () => {
  const other = noise.slice();
  other[other.length - 1]! ^= 1;
  expect(await sameBytes(new Blob([noise]), new Blob([noise.slice()]))).toBe(true);
  expect(await sameBytes(new Blob([noise]), new Blob([other]))).toBe(false);
  expect(await sameBytes(new Blob([noise]), new Blob([noise, 'x']))).toBe(false);
});

describe('zipStored', () => {
  const files = new Map([
    ['bag/data/b.bin', noise],
    ['bag/a.txt', bytesOf('ñ\n')],
    ['bag/empty.txt', bytesOf('')],
  ]);

  it('is read by programs that are not ours', async () => {
    const path = join(folder, 'a.zip');
    writeFileSync(path, new Uint8Array(await (await zipOf(files)).arrayBuffer()));
    expect(execFileSync('unzip', ['-t', path], { encoding: 'utf8' })).toContain('No errors detected');
    const script =
      'import sys,zipfile; z=zipfile.ZipFile(sys.argv[1]); assert z.testzip() is None; ' +
      'print([(i.filename,i.file_size,i.compress_type,i.date_time[:3]) for i in z.infolist()])';
    expect(execFileSync('python3', ['-c', script, path], { encoding: 'utf8' }).trim()).toBe(
      `[('bag/a.txt', 3, 0, (1980, 1, 1)), ('bag/data/b.bin', ${noise.length}, 0, (1980, 1, 1)), ('bag/empty.txt', 0, 0, (1980, 1, 1))]`,
    );
  });

  it('gives every file back, and the same bytes in whatever order they were handed over', async () => {
    const zip = await zipOf(files);
    expect(new Map([...(await filesOf(zip))].sort())).toEqual(new Map([...files].sort()));
    expect(await sameBytes(zip, await zipOf(new Map([...files].reverse())))).toBe(true);
  });

  it('never reads a body', () => {
    const body = new Blob([noise]);
    body.arrayBuffer =
      body.stream =
      body.text =
        () => {
          throw new Error('read');
        };
    expect(zipStored([{ name: 'bag/b.bin', body, crc32: 0 }]).ok).toBe(true);
  });

  it('holds MAX_FILES, and one more is a fault', () => {
    const body = new Blob([]);
    const many = Array.from({ length: MAX_FILES + 1 }, (_, i) => ({ name: `bag/${i}.txt`, body, crc32: 0 }));
    expect(zipStored(many)).toEqual({ ok: false, fault: { code: 'too-many-files', count: 65_535, max: 65_534 } });
    expect(zipStored(many.slice(1)).ok).toBe(true);
  });

  it('holds 4 GiB less 2 bytes, and one more is a fault', () => {
    const fields = 30 + 46 + 22 + 2 * 'bag/b.bin'.length;
    const ofSize = (size: number) => ({ name: 'bag/b.bin', body: Object.defineProperty(new Blob([]), 'size', { value: size }), crc32: 0 });
    expect(zipStored([ofSize(MAX_BYTES - fields)]).ok).toBe(true);
    expect(zipStored([ofSize(MAX_BYTES - fields + 1)])).toMatchObject({
      ok: false,
      fault: { code: 'archive-too-large', bytes: MAX_BYTES + 1 },
    });
  });

  const body = new Blob([]);
  for (const name of ['../a.txt', '/a.txt', 'a/B.txt', 'a\\b.txt', 'ñ.txt', 'a/.txt', 'a', `${'x'.repeat(71)}.txt`]) {
    it(`refuses to write "${name}"`, () => expect(() => zipStored([{ name, body, crc32: 0 }])).toThrow('name: expected'));
  }
  it('refuses a name twice', () => {
    const file = { name: 'a.txt', body, crc32: 0 };
    expect(() => zipStored([file, file])).toThrow('"a.txt" twice');
  });
});

it('names a log needs are names of ours: the longest id, a hash', () => {
  expect(OWN_NAME.test(`layerbook-${'a'.repeat(60)}/data/log/${'b'.repeat(60)}.jsonl`)).toBe(true);
  expect(OWN_NAME.test(`layerbook-x/data/photos/${'0'.repeat(64)}.jpg`)).toBe(true);
});

describe('openZip reads what other programs write', () => {
  it('deflated files, and tells that they are no slice', async () => {
    const zip = await openZip(rawZip([{ name: 'bag/a.txt', body: noise, deflate: true }]));
    if (!zip.ok) throw new Error(zip.fault.code);
    let bytes = 0;
    const read = await zip.value.members[0]!.read((piece) => (bytes += piece.length));
    expect({ read, bytes }).toEqual({ read: { ok: true, value: null }, bytes: noise.length });
  });

  it('a file again, as often as asked', async () => {
    const zip = await openZip(rawZip([{ name: 'bag/a.txt', body: bytesOf('abc'), deflate: true }, { name: 'bag/b.txt' }]));
    if (!zip.ok) throw new Error(zip.fault.code);
    for (const member of [...zip.value.members, ...zip.value.members]) expect((await member.read(() => undefined)).ok).toBe(true);
  });

  it('names that are not ours are told and never opened; folders are left out', async () => {
    const zip = await openZip(rawZip([{ name: 'bag/' }, { name: 'bag/Thumbs.db' }, { name: 'bag/ñ.txt' }, { name: 'bag/a.txt' }]));
    expect(zip).toMatchObject({ ok: true, value: { members: [{ name: 'bag/a.txt' }], strangers: ['bag/Thumbs.db', 'bag/ñ.txt'] } });
  });

  it('a link is a stranger, whatever its name', async () => {
    const zip = await openZip(rawZip([{ name: 'bag/a.txt', externalAttributes: 0o120777 * 0x10000 }]));
    expect(zip).toMatchObject({ ok: true, value: { members: [], strangers: ['bag/a.txt'] } });
  });
});
