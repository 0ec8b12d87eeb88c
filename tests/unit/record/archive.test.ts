import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ARCHIVE_README } from '#lib/record/archive-readme.ts';
import { buildArchive, type Archive } from '#lib/record/archive.ts';
import { sameBytes } from '#lib/record/digest.ts';
import { sha256Hex, sha256HexOfText } from '#lib/record/hash.ts';
import { OWN_NAME } from '#lib/record/zip-write.ts';
import { filesOf } from '../../fixtures/forge.ts';
import { smallJob } from '../../fixtures/small-job.ts';

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

  it('holds the log as it was kept and every picture byte for byte', async () => {
    const files = await filesOf(archive.blob);
    const logs = ['phone-a', 'phone-b'].map((device) =>
      new TextDecoder().decode(files.get(`layerbook-hall-bath/data/log/${device}.jsonl`)),
    );
    expect(logs.join('')).toBe(job.raws.map((raw) => `${raw}\n`).join(''));
    const held = [...files].filter(([name]) => /data\/(?:photos|records)\//.test(name)).map(([name]) => name.split('/').slice(2).join('/'));
    const kind = ([sha256, blob]: [string, Blob]) =>
      blob.type === 'application/pdf' ? `records/${sha256}.pdf` : `photos/${sha256}.${blob.type === 'image/png' ? 'png' : 'jpg'}`;
    expect(held.sort()).toEqual([...job.blobs].map(kind).sort());
    for (const [name, bytes] of files) if (/photos|records/.test(name)) expect(name).toContain(sha256Hex(bytes));
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
        `Payload-Oxum: ${payload.reduce((sum, [, bytes]) => sum + bytes.length, 0)}.${payload.length}\nLayerbook-Archive: 1\n${last('phone-a')}${last('phone-b')}`,
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

it('the readme of archive version 1 stays as it is: other words need another version', () => {
  expect(sha256HexOfText(ARCHIVE_README)).toBe('0f3b565a1569173042367484d11607812a598f8a020cf2e8845d0fc51eff0a91');
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
    expect(ARCHIVE_README.replaceAll('TELEFONO', 'DEVICE').split(line)).toHaveLength(3);
    return line.replace('DEVICE', 'phone-a');
  };
  const shell = (line: string, then = '') => run('sh', ['-c', promised(line) + then]);

  for (const line of ['sha256sum -c manifest-sha256.txt', 'shasum -a 256 -c manifest-sha256.txt']) {
    it(`${line} finds every file as listed, and names one that is changed`, () => {
      expect(shell(line).match(/: OK$/gm)).toHaveLength(6);
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
