import { readdir, readFile } from 'node:fs/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { EXAMPLE_DEVICE, EXAMPLE_ZONE } from '../../../../src/cli/example/day.ts';
import { EXAMPLE_JOB } from '#lib/job/example.ts';
import { EXAMPLE_FOLDER, exampleJob, exampleLog } from '../../../../src/cli/example/job.ts';
import { recomputePhotos } from '../../../../src/cli/recompute-photos.ts';
import { readExif } from '#lib/device/capture/exif.ts';
import { clearToCover } from '#lib/job/cover.ts';
import { judgeSaid } from '#lib/job/judged.ts';
import { project } from '#lib/job/project.ts';
import { price, proofOwed } from '#lib/job/proof.ts';
import type { JobState } from '#lib/job/state.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { readEntry, type Entry } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { sniff } from '#lib/record/media.ts';
import { combReading, exampleCombMil } from '#lib/trade/comb.ts';

const MOST_BYTES = 8_000_000;

const file = async (name: string) => new Uint8Array(await readFile(new URL(name, EXAMPLE_FOLDER)));
const text = async (name: string) => new TextDecoder().decode(await file(name));

let raws: string[];
let blobs: Map<string, Blob>;
let entries: Entry[];
let job: JobState;
let pictures: { file: string; sha256: string; bytes: number }[];

beforeAll(async () => {
  ({ raws, blobs } = await exampleJob());
  entries = raws.map((raw, i) => {
    const read = readEntry(raw, `line ${i + 1}`);
    if (!read.ok) throw new Error(JSON.stringify(read.fault));
    return read.value;
  });
  job = project(entries).state;
  pictures = JSON.parse(await text('pictures.json')) as typeof pictures;
});

describe('the committed example', () => {
  it('is what the code builds, byte for byte', async () => {
    expect(await text('log.jsonl')).toBe(exampleLog(raws));
  });

  it('holds a lap by the card that its own photo gives again', async () => {
    const again = await recomputePhotos(entries, async (sha256) => blobs.get(sha256) ?? null);
    expect(again).toMatchObject([{ entry: 'reading-overlap-north-card', same: true, then: { plane: 'edges' } }]);
  });

  it('is one chain that verifies, under an id no real job can have', () => {
    expect(verifyChains(entries)).toEqual([]);
    expect(new Set(entries.map((entry) => entry.body.device))).toEqual(new Set([EXAMPLE_DEVICE]));
    expect(job.id).toBe(EXAMPLE_JOB);
    // Ids of real jobs are UUIDs, so hexadecimal (RFC 9562).
    expect(EXAMPLE_JOB).not.toMatch(/^[0-9a-f-]+$/);
  });

  it('holds every picture a shot names, whole and 1280 x 960, at most 8 MB together, and no other file', async () => {
    for (const { file: name, sha256, bytes } of pictures) {
      const content = await file(name);
      expect({ sha256: sha256Hex(content), bytes: content.length }, name).toEqual({ sha256, bytes });
      expect(sniff(content), name).toMatchObject({ type: 'image/jpeg', width: 1280, height: 960, whole: true });
    }
    const named = job.shots.map(({ picture }) => `${picture.sha256} ${picture.bytes}`);
    expect(named.sort()).toEqual(pictures.map((one) => `${one.sha256} ${one.bytes}`).sort());
    expect(pictures.reduce((sum, one) => sum + one.bytes, 0)).toBeLessThanOrEqual(MOST_BYTES);
    const there = await readdir(EXAMPLE_FOLDER);
    expect(there.sort()).toEqual([...pictures.map((one) => one.file), 'log.jsonl', 'pictures.json'].sort());
  });

  it('repeats of a file what its EXIF says, and of a viewfinder shot nothing', async () => {
    const names = new Map(pictures.map((one) => [one.sha256, one.file]));
    const shots = entries.filter((entry) => entry.body.kind === 'shot').map((entry) => entry.body.data);
    for (const { picture, cameraSays = null } of shots as { picture: { sha256: string }; cameraSays?: object }[]) {
      const name = names.get(picture.sha256)!;
      expect(await readExif(await file(name)), name).toEqual(cameraSays);
    }
    expect(shots.filter((data) => data['from'] === 'file')).toHaveLength(5);
  });
});

describe('the example as a job', () => {
  it('is read whole: no line unknown, no clock moved, each time with the offset its zone had', () => {
    expect(job.lines.filter((line) => line.unknown)).toEqual([]);
    expect(job.facts['clock-jump']).toEqual([]);
    const shown = (timeZone: string) => new Intl.DateTimeFormat('en-GB', { timeZone, dateStyle: 'short', timeStyle: 'medium' });
    for (const { body } of entries) {
      const ms = Date.parse(body.times.utc);
      expect(shown('UTC').format(ms + body.times.offsetMin * 60_000), body.id).toBe(shown(EXAMPLE_ZONE).format(ms));
    }
    expect(new Set(entries.map((entry) => entry.body.times.offsetMin))).toEqual(new Set([-360, -300]));
  });

  it('has five surfaces, two people at work, and runs that were all stopped, one end inferred', () => {
    expect(job.surfaces.map((one) => `${one.surface} ${one.system}`)).toEqual([
      'north sheet-and-liquid',
      'east sheet-and-liquid',
      'west liquid',
      'floor sheet-and-liquid',
      'curb sheet-and-liquid',
    ]);
    expect(Object.keys(job.people).sort()).toEqual([...new Set(job.shots.map((shot) => shot.by))].sort());
    expect(job.runs.map((run) => `${run.step} ${run.stopUtc === null ? 'open' : run.stopAbout ? 'about' : 'touched'}`)).toEqual([
      'scrape touched',
      'pre-cut touched',
      'bond-sheets touched',
      'bond-sheets about',
      'band-seams touched',
      'liquid-coat touched',
      'liquid-coat touched',
    ]);
  });

  it('has one lap outside its limit and one film not proven; films are what a gauge can show', () => {
    const verdicts = job.readings.map((one) => ({ id: one.id, verdict: judgeSaid(one.what, one.said, job.limits).verdict }));
    expect(verdicts.filter((one) => one.verdict !== 'within')).toEqual([
      { id: 'reading-band-lap-curb', verdict: 'outside' },
      { id: 'reading-wet-film-west-2', verdict: 'not-proven' },
    ]);
    const gauge = exampleCombMil();
    const films = job.readings.filter((one) => one.what === 'wet-film').map(({ said }) => said);
    expect(films).toHaveLength(5);
    for (const said of films) expect(combReading(gauge, gauge.teeth.indexOf(said.value))).toEqual({ from: said.value, to: said['to'] });
  });

  it('shows finished layers, an open one and one not begun', () => {
    const layers = proofOwed(job);
    expect(layers.map(({ layer, stand, shown, items }) => `${layer} ${stand} ${shown}/${items.length}`)).toEqual([
      'substrate shown 3/3',
      'sheets shown 5/5',
      'bands shown 8/8',
      'coat owed 2/8',
      'flood not-begun 0/8',
      'protect not-begun 0/2',
    ]);
    expect(price(layers)).toEqual({ photos: 20, readings: 11, entries: 3, minutes: 12 });
    const { clear, missing, outside } = clearToCover(layers, job);
    expect(clear).toBe(false);
    expect(missing.map((item) => item.key)).toEqual([
      'coated:bath:2',
      'film:floor:1',
      'film:floor:2',
      'film:curb:1',
      'film:curb:2',
      'film-more:bath:2',
    ]);
    expect(outside.map((one) => one.id)).toEqual(['reading-band-lap-curb']);
  });

  it('keeps unsorted photos in the tray', () => {
    const tray = job.shots.filter((shot) => !shot.sorted);
    expect(tray.map((shot) => shot.id)).toEqual(['photo-42', 'photo-43', 'photo-44']);
  });
});
