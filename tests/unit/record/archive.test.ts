import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { archiveReadme } from '#lib/record/archive-readme.ts';
import { append } from '#lib/record/append.ts';
import { buildArchive, type Archive } from '#lib/record/archive.ts';
import { Book } from '#lib/record/book.ts';
import { sameBytes } from '#lib/record/digest.ts';
import { sha256Hex, sha256HexOfText } from '#lib/record/hash.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { verify } from '#lib/record/verify.ts';
import { OWN_NAME } from '#lib/record/zip-write.ts';
import { filesOf } from '../../fixtures/forge.ts';
import { blobOf, JOB, smallJob, writerOf } from '../../fixtures/small-job.ts';

const DATE = '2026-03-02';
const job = await smallJob();
const build = async (change: Partial<Parameters<typeof buildArchive>[0]> = {}): Promise<Archive> => {
  const built = await buildArchive({ raws: job.raws, blob: job.blob, date: DATE, ...change });
  if (!built.ok) throw new Error(built.fault.code);
  return built.value;
};
const archive = await build();
const info = async (blob: Blob) => new TextDecoder().decode((await filesOf(blob)).get('layerbook-hall-bath/bag-info.txt'));

describe('an archive', () => {
  it('is named for its job and misses nothing', () => {
    expect(archive).toMatchObject({ name: 'layerbook-hall-bath.zip', missing: [] });
  });

  it('holds the log as it was kept and every picture, sound and record byte for byte', async () => {
    const files = await filesOf(archive.blob);
    const logs = ['phone-a', 'phone-b'].map((device) =>
      new TextDecoder().decode(files.get(`layerbook-hall-bath/data/log/${device}.jsonl`)),
    );
    expect(logs.join('')).toBe(job.raws.map((raw) => `${raw}\n`).join(''));
    const held = [...files]
      .filter(([name]) => /data\/(?:photos|sounds|records)\//.test(name))
      .map(([name]) => name.split('/').slice(2).join('/'));
    const PLACE: Record<string, [folder: string, extension: string]> = {
      'image/jpeg': ['photos', 'jpg'],
      'image/png': ['photos', 'png'],
      'audio/wav': ['sounds', 'wav'],
      'application/pdf': ['records', 'pdf'],
    };
    expect(held.sort()).toEqual([...job.blobs].map(([sha256, { type }]) => `${PLACE[type]![0]}/${sha256}.${PLACE[type]![1]}`).sort());
    for (const [name, bytes] of files) if (/photos|sounds|records/.test(name)) expect(name).toContain(sha256Hex(bytes));
    for (const name of files.keys()) expect(name).toMatch(OWN_NAME);
  });

  it('is the same bytes for the same log, whatever order it comes in', async () => {
    expect(await sameBytes(archive.blob, (await build({ raws: [...job.raws].reverse() })).blob)).toBe(true);
    expect(await sameBytes(archive.blob, (await build({ date: '2026-03-03' })).blob)).toBe(false);
  });

  it('says in bag-info.txt which day, which job, how much, and where each chain ends', async () => {
    const last = (device: string) => {
      const chain = job.raws
        .map((raw) => JSON.parse(raw) as { body: { device: string; seq: number }; hash: string })
        .filter((one) => one.body.device === device);
      return `Layerbook-Head: ${device} ${chain.length - 1} ${chain.at(-1)!.hash}\n`;
    };
    const payload = [...(await filesOf(archive.blob))].filter(([name]) => name.includes('/data/'));
    expect(await info(archive.blob)).toBe(
      `Bag-Software-Agent: Layerbook\nBagging-Date: ${DATE}\nExternal-Identifier: hall-bath\n` +
        `Payload-Oxum: ${payload.reduce((sum, [, bytes]) => sum + bytes.length, 0)}.${payload.length}\nLayerbook-Archive: 2\n${last('phone-a')}${last('phone-b')}`,
    );
  });

  it('lists what the log names and the book does not hold, or no longer holds as it was', async () => {
    const [gone, spoilt] = [...job.blobs.keys()] as [string, string];
    const blob = async (sha256: string) => (sha256 === gone ? null : sha256 === spoilt ? new Blob(['else']) : job.blob(sha256));
    const part = await build({ blob });
    expect(part.missing).toEqual([
      { sha256: gone, why: 'not-held' },
      { sha256: spoilt, why: 'bytes-differ' },
    ]);
    expect(await info(part.blob)).toContain(`Layerbook-Missing: ${gone} not-held\nLayerbook-Missing: ${spoilt} bytes-differ\n`);
  });

  it('of an entry that cannot be read is refused, with its place', async () => {
    const built = await buildArchive({ raws: [...job.raws, '{'], blob: job.blob, date: DATE });
    expect(built).toEqual({ ok: false, fault: { code: 'entry-not-json', at: `entry ${job.raws.length}` } });
  });

  it('of two jobs, or of none, is our own mistake', async () => {
    await expect(build({ raws: [] })).rejects.toThrow('entries of one job');
    await expect(build({ raws: [job.raws[0]!, job.raws[1]!.replace('"job":"hall-bath"', '"job":"den"')] })).rejects.toThrow(
      'entries of one job',
    );
  });
});

describe('what a log names beside photos, sounds and records', () => {
  const sheet = blobOf('%PDF-1.7 the data sheet', 'application/pdf');
  const second = blobOf('the second page', 'image/jpeg');
  const signature = blobOf('a signature', 'image/png');
  const named = ({ sha256, bytes, body }: typeof sheet) => ({ sha256, bytes, type: body.type });
  const page = (file: typeof sheet) => ({ sheet: 's', title: 'Grey sheet', edition: '7', materials: [], files: [named(file)] });
  const drafts: Draft[] = [
    { id: 'sheet-entry', kind: 'data-sheet', data: page(sheet) },
    { kind: 'hand-over', data: { surfaces: [], who: 'Ana', role: 'tile-setter', words: '', signature: named(signature) } },
    { kind: 'amendment', refs: ['sheet-entry'], data: { of: 'sheet-entry', data: page(second), why: '' } },
  ];

  it('goes into the archive byte for byte, a sheet put in place of another too, and is checked', async () => {
    const blobs = new Map([sheet, second, signature].map((one) => [one.sha256, one]));
    const done = await append(new Book(new MemoryShelf()), JOB, drafts, [...blobs.values()], writerOf('phone-a', 'ana', 7));
    const raws = done.ok ? done.value.map(({ raw }) => raw) : [];
    const whole = await build({ raws, blob: async (sha256) => blobs.get(sha256)?.body ?? null });
    expect(whole.missing).toEqual([]);
    const papers = [...(await filesOf(whole.blob))]
      .filter(([name]) => name.includes('/data/papers/'))
      .map(([name, bytes]) => [name.split('/').at(-1), sha256Hex(bytes)]);
    const expected = [
      [sheet, 'pdf'],
      [second, 'jpg'],
      [signature, 'png'],
    ] as const;
    expect(papers.sort()).toEqual(expected.map(([{ sha256 }, extension]) => [`${sha256}.${extension}`, sha256]).sort());
    expect(await verify(whole.blob)).toMatchObject({ verdict: 'as-written', findings: [] });

    const without = await build({ raws, blob: async (sha256) => (sha256 === second.sha256 ? null : (blobs.get(sha256)?.body ?? null)) });
    expect(without.missing).toEqual([{ sha256: second.sha256, why: 'not-held' }]);
  });
});

it.each([
  ['1', '0f3b565a1569173042367484d11607812a598f8a020cf2e8845d0fc51eff0a91'],
  ['2', '7cf147a96c500445a1d0c6633f7373ea27de80a959535bf4669ffabc11c16873'],
] as const)('the readme of archive version %s stays as it is: other words need another version', (version, sha256) => {
  expect(sha256HexOfText(archiveReadme(version))).toBe(sha256);
});

describe('programs that are not ours', () => {
  const folder = mkdtempSync(join(tmpdir(), 'layerbook-archive-'));
  const bag = join(folder, 'layerbook-hall-bath');
  const run = (command: string, args: string[]) => execFileSync(command, args, { cwd: bag, encoding: 'utf8', stdio: 'pipe' });
  beforeAll(async () => {
    writeFileSync(join(folder, archive.name), new Uint8Array(await archive.blob.arrayBuffer()));
    execFileSync('unzip', ['-q', archive.name], { cwd: folder });
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it('unzip makes one folder', () => expect(readdirSync(folder).sort()).toEqual(['layerbook-hall-bath', archive.name].sort()));

  /** A command line that data/readme.txt gives in both languages, so that the text cannot promise what does not run. */
  const promised = (line: string): string => {
    expect(archiveReadme('2').replaceAll('TELEFONO', 'DEVICE').split(line)).toHaveLength(3);
    return line.replace('DEVICE', 'phone-a');
  };
  const shell = (line: string, then = '') => run('sh', ['-c', promised(line) + then]);

  for (const line of ['sha256sum -c manifest-sha256.txt', 'shasum -a 256 -c manifest-sha256.txt']) {
    it(`${line} finds every file as listed, and names one that is changed`, () => {
      expect(shell(line).match(/: OK$/gm)).toHaveLength(7);
      expect(run('sh', ['-c', line.replace('manifest', 'tagmanifest')]).match(/: OK$/gm)).toHaveLength(3);
      const log = join(bag, 'data/log/phone-a.jsonl');
      const before = readFileSync(log);
      writeFileSync(log, `${before.toString()} `);
      try {
        expect(shell(line, '; test $? -eq 1')).toContain('phone-a.jsonl: FAILED');
      } finally {
        writeFileSync(log, before);
      }
    });
  }

  it('find and wc count what Payload-Oxum says', () => {
    const oxum = `${shell('find data -type f -exec cat {} + | wc -c').trim()}.${shell('find data -type f | wc -l').trim()}`;
    expect(run('cat', ['bag-info.txt'])).toContain(`Payload-Oxum: ${oxum}\n`);
  });

  it('Python, from the text alone, comes to the same hashes', () => {
    expect(run('python3', [fileURLToPath(new URL('./rehash.py', import.meta.url)), '.'])).toBe(`${job.raws.length}\n`);
  });

  it('an entry is hashed as it stands in its line: sed and shasum are enough', () => {
    const hash = shell(
      `sed -n '2s/^{"body":\\(.*\\),"hash":"[0-9a-f]*","sig":.*$/\\1/p' data/log/DEVICE.jsonl | tr -d '\\n' | shasum -a 256`,
    );
    expect(hash.slice(0, 64)).toBe((JSON.parse(job.raws[1]!) as { hash: string }).hash);
  });
});
