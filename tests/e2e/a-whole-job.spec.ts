import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test, type Page } from '@playwright/test';
import sharp from 'sharp';
import { verifyChains } from '#lib/record/chain.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { known } from '#lib/record/kinds.ts';
import { ROOT } from '../../src/cli/ready.mjs';
import { CAMERA_FLAGS, makeFilm, photographs } from './film.ts';
import { pickByPath, startKillable, type Killable } from './killable.ts';
import { Site, type PickedFile } from './site.ts';
import { entriesOf, readStored, shotsOf, type Stored } from './stored.ts';

const run = promisify(execFile);

/** A photo as a phone's camera files it. */
async function cameraFile(photograph: string, name: string, taken: string): Promise<PickedFile> {
  const buffer = await sharp(photograph)
    .withExif({ IFD2: { DateTimeOriginal: taken } })
    .jpeg()
    .toBuffer();
  return { name, mimeType: 'image/jpeg', buffer };
}

/** The oracle: what the page said is saved, kept outside the browser. */
class Acknowledged {
  readonly raws = new Set<string>();

  async hear(page: Page): Promise<void> {
    for (const raw of (await readStored(page)).raws) this.raws.add(raw);
  }
  missingFrom({ raws }: Stored): string[] {
    const kept = new Set(raws);
    return [...this.raws].filter((raw) => !kept.has(raw));
  }
}

/** Photos that entries name and that are not there, byte for byte. */
function unbacked(stored: Stored): string[] {
  return shotsOf(stored).filter((sha256) => stored.blobs[sha256] !== sha256);
}

const SAID_IN_RECORD = [
  ...['Hall bath', '12 Elm Street', 'Ines Robles', 'Back wall', 'Shower floor'],
  ...['Scrape and clean', 'Pre-cut and dry fit', 'Bond sheets', 'Band seams', 'Liquid coat', 'Flood test'],
  ...['2 11/16 in', '1 15/16 in', '2 in', '22–24 mil', '26–28 mil', '2 1/4 in'],
  ...['At least 2 in', '20 mil to 26 mil', 'page 2, edition 7', 'page 4, edition 7'],
];

test.describe.configure({ timeout: 240_000 });

test('the whole job without network, the browser killed in the middle, to a record and an archive', async ({ baseURL }) => {
  await makeFilm();
  const folder = await mkdtemp(join(tmpdir(), 'layerbook-whole-job-'));
  const oracle = new Acknowledged();
  let browser: Killable | undefined;

  /** A browser on the same profile, without network unless it is the first time. */
  async function open(network: boolean): Promise<Site> {
    browser = await startKillable(join(folder, 'profile'), CAMERA_FLAGS);
    const { page } = browser;
    await page.setViewportSize({ width: 390, height: 844 });
    await page.context().grantPermissions(['camera'], { origin: baseURL! });
    await page.context().setOffline(!network);
    await page.goto(baseURL!);
    const site = new Site(page);
    site.onSaved = () => oracle.hear(page);
    return site;
  }

  try {
    let site = await open(true);
    await site.untilOffline();
    await site.page.context().setOffline(true);

    await site.startJob({
      name: 'Hall bath',
      address: '12 Elm Street',
      person: 'Ines Robles',
      units: 'in',
      surfaces: [
        { name: 'Back wall', place: 'wall', system: 'sheet-and-liquid' },
        { name: 'Shower floor', place: 'floor', system: 'sheet-and-liquid' },
      ],
      limits: [
        { what: 'overlap', min: '2', source: 'data-sheet', text: 'page 2, edition 7' },
        { what: 'wet-film', min: '20', max: '26', source: 'data-sheet', text: 'page 4, edition 7' },
      ],
    });
    const section = site.page.getByTestId('section');
    const says = (words: string) => expect(site.page.getByText(words, { exact: true }).filter({ visible: true }).first()).toBeVisible();

    await test.step('scrape and clean', async () => {
      await site.startStep('scrape');
      // The house, the survey, and one overview of the room.
      await says('Still owed: 2 photos, 1 entry.');
      await site.openFinder();
      await site.shoot('Back wall');
      await site.closeFinder();
      await says('Still owed: 1 photo, 1 entry.');
      await site.openFinder();
      await site.shoot('Shower floor');
      await site.closeFinder();
      await site.stopStep();
    });

    await test.step('pre-cut and dry fit', async () => {
      await site.startStep('pre-cut');
      await says('Not clear to cover');
      await says('Still owed: 5 photos, 1 reading, 1 entry.');
      // What is owed leads to where it is shown.
      await section.getByRole('button', { name: 'Overlap at the dry fit, Shower floor' }).click();
      await site.touchInches(2, 11);
      await says('Within');
      await says('At least 2 in');
      await says('Data sheet: page 2, edition 7');
      await site.saveReading('2 11/16 in');
      await site.touchInches(1, 15);
      await says('Outside');
      await site.saveReading('1 15/16 in', 'Back wall');
      await site.link('Back').click();
      await says('1 value outside its limit');
      await site.stopStep();
    });

    const taken = new Map([
      [await cameraFile(photographs()[0]!, 'wide.jpg', '2026:03:02 10:02:03'), '2026:03:02 10:02:03'],
      [await cameraFile(photographs()[1]!, 'close.jpg', '2026:03:02 10:05:41'), '2026:03:02 10:05:41'],
    ]);
    await test.step('bond sheets, and every process of the browser killed while photos are kept', async () => {
      await site.startStep('bond-sheets');
      await site.openFinder();
      await site.addFiles([...taken.keys()], 'Back wall');
      await site.shoot('Shower floor');
      // The first of them is said to be saved; the rest are on their way.
      await site.addFiles(photographs().slice(0, 12));
      await browser!.kill();

      site = await open(false);
      await says('A photo was cut off');
      const stored = await readStored(site.page);
      expect(oracle.missingFrom(stored)).toEqual([]);
      // What was on its way is there whole, or not at all.
      expect(verifyChains(entriesOf(stored))).toEqual([]);
      expect(unbacked(stored)).toEqual([]);
      await site.link('Take it again').click();
      await site.untilFinder();
      await site.shoot();
      await site.closeFinder();
      await site.stopStep();
    });

    await test.step('band seams and corners', async () => {
      await site.startStep('band-seams');
      await site.openFinder();
      await site.shoot('Back wall');
      await site.openPad();
      await site.touchInches(2, 0);
      await says('No limit set');
      await site.saveReading('2 in', 'Back wall');
      await site.touchInches(2, 0);
      await site.saveReading('2 in', 'Shower floor');
      await site.link('Back').click();
      await site.stopStep();
    });

    await test.step('liquid coat', async () => {
      await site.startStep('liquid-coat');
      await site.openFinder();
      await site.shoot('Back wall');
      await site.shoot('Shower floor');
      await site.openPad();
      await site.touchTooth('22 mil');
      await says('Within');
      await says('20 mil to 26 mil');
      await site.saveReading('22–24 mil', 'Back wall');
      await site.touchTooth('26 mil');
      await says('Not proven');
      await site.saveReading('26–28 mil', 'Shower floor');
      await site.link('Back').click();
      await site.stopStep();
    });

    await test.step('flood test', async () => {
      await site.startStep('flood-test');
      await site.openFinder();
      await site.shoot('Shower floor');
      await site.openPad();
      await site.touchInches(2, 4);
      await says('No limit set');
      await site.saveReading('2 1/4 in', 'Shower floor');
      await site.link('Back').click();
      await site.stopStep();
      await says('Not clear to cover');
    });

    await test.step('any page of the job, reloaded or opened by its address', async () => {
      const job = site.page.url();
      for (const [page, heading] of [
        ['', 'Hall bath'],
        ['/log', 'Log'],
        ['/record', 'Record'],
        ['/start', 'Start a step'],
        ['/shoot', 'Hall bath'],
        ['/read', 'Overlap'],
      ] as const) {
        await site.page.goto(job + page);
        await expect(site.heading).toHaveText(heading);
        await site.page.reload();
        await expect(site.heading).toHaveText(heading);
      }
      await site.page.goto(job);
    });

    const before = await readStored(site.page);
    await site.openRecordPage();
    await test.step('the record', async () => {
      const pdf = join(folder, 'record.pdf');
      await (await site.buildRecord()).saveAs(pdf);
      await run('qpdf', ['--check', pdf]);
      const text = (await run('pdftotext', ['-layout', pdf, '-'])).stdout.replaceAll(/\s+/g, ' ');
      for (const said of SAID_IN_RECORD) expect.soft(text).toContain(said);
      await run('pdfdetach', ['-saveall', '-o', folder, pdf]);
      expect(await readFile(join(folder, 'log.jsonl'), 'utf8')).toBe(before.raws.map((raw) => `${raw}\n`).join(''));
      expect(text).toContain(before.heads[0]!.hash.slice(0, 32).replaceAll(/(.{8})(?=.)/g, '$1 '));
    });

    await test.step('the archive', async () => {
      const zip = join(folder, 'job.zip');
      await (await site.writeArchive()).saveAs(zip);
      const verified = await run(process.execPath, ['src/cli/layerbook.ts', 'verify', zip], { cwd: ROOT });
      expect(JSON.parse(verified.stdout)).toMatchObject({ verdict: 'as-written', findings: [] });
      for (const name of ['Back', 'Back', 'Check an archive']) await site.link(name).click();
      await pickByPath(site.page, zip);
      await expect(site.page.getByTestId('verdict')).toHaveAttribute('data-verdict', 'as-written');
    });

    await test.step('what the oracle heard', async () => {
      const stored = await readStored(site.page);
      expect(oracle.missingFrom(stored)).toEqual([]);
      expect(unbacked(stored)).toEqual([]);
      const entries = entriesOf(stored);
      expect(verifyChains(entries)).toEqual([]);
      const claims = entries.map(known).flatMap((view) => (view.kind === 'shot' && view.data.from === 'file' ? [view.data] : []));
      for (const [{ buffer }, says] of taken) {
        expect(claims.find(({ picture }) => picture.sha256 === sha256Hex(buffer))).toMatchObject({ cameraSays: { taken: says } });
      }
    });
  } finally {
    await browser?.kill();
    await rm(folder, { recursive: true, force: true });
  }
});
