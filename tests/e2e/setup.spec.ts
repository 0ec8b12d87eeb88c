import { expect, type Page } from '@playwright/test';
import sharp from 'sharp';
import { sha256Hex } from '#lib/record/hash.ts';
import { known, type DataOf, type Kind } from '#lib/record/kinds.ts';
import * as m from '#lib/words/compiled/messages.js';
import { MATERIAL, MEASURE, PLACE, PROOF_LEVEL, SCALE, STEP, SUBSTRATE } from '#lib/words/codes.ts';
import { CHOICE } from '#lib/words/fields.ts';
import { PHONE } from '../gallery/screens.ts';
import { Site, type Lang } from './site.ts';
import { entriesOf, readDraft, readStored } from './stored.ts';
import { test } from './test.ts';

/** What the last entry of a kind says. */
async function last<K extends Kind>(page: Page, kind: K): Promise<DataOf<K>> {
  const entry = entriesOf(await readStored(page)).findLast(({ body }) => body.kind === kind);
  const view = entry === undefined ? null : known(entry);
  if (view === null || view.kind !== kind) throw new Error(`no ${kind}`);
  return view.data as DataOf<K>;
}

const PDF = Buffer.from('%PDF-1.7\nthe data sheet of the grey sheet\n%%EOF');
const label = () =>
  sharp({ create: { width: 80, height: 60, channels: 3, background: '#8a8f94' } })
    .jpeg()
    .toBuffer();

test.describe.configure({ timeout: 90_000 });

test('one of each kind is set up without network', async ({ page, site, context }) => {
  await site.openJobs();
  await site.untilOffline();
  await context.setOffline(true);
  const field = (name: string) => page.getByLabel(name, { exact: true });
  const choose = (name: string) => page.getByRole('radio', { name, exact: true }).check();
  const follow = (name: string) => page.getByRole('link', { name }).click();
  const save = () => site.button('Save').click();
  const heading = (name: string) => expect(site.heading).toHaveText(name);
  const price = (level: string) => page.getByRole('radio', { name: new RegExp(`^${level}`) }).locator('..');

  await site.link('New job').click();
  const cores = (await price('Core').innerText()).match(/\d+/g)!;
  const fulls = (await price('Full').innerText()).match(/\d+/g)!;
  expect(Number(fulls[0])).toBeGreaterThan(Number(cores[0]));
  await site.link('Back').click();
  const id = await site.startJob({
    name: 'Elm Street 12',
    surfaces: [
      { name: 'Back wall', place: 'wall', system: 'sheet' },
      { name: 'Floor', place: 'floor', system: 'sheet' },
    ],
  });
  const setup = `/job/${id}/setup`;
  await page.goto(setup);
  await heading('Set-up');

  await test.step('a surface: its size is read back, a number without a unit is asked about', async () => {
    await follow('Rooms and surfaces');
    await follow('Back wall');
    await field('Width').fill(`5' 3-1/2"`);
    await expect(page.getByText('Read as 5 ft 3 1/2 in')).toBeVisible();
    await field('Height').fill('96');
    await save();
    await expect(page.getByText(m.setup_no_unit())).toBeVisible();
    await site.button('96 in').click();
    await field('Substrate').selectOption(SUBSTRATE['cement-board']());
    for (const group of ['Outside wall', 'Vapour retarder behind'])
      await page.getByRole('group', { name: group }).getByRole('radio', { name: 'Yes' }).check();
    await expect(page.getByText(/Ask the designer/)).toBeVisible();
    // Killed and opened again, the form stands as it was typed.
    await expect.poll(() => readDraft(page, ['setup', id, 'surface', page.url().split('surface=').at(-1)!])).toContain('cement-board');
    await page.reload();
    await expect(field('Width')).toHaveValue(`5' 3-1/2"`);
    await save();
    await heading('Rooms and surfaces');
    await expect(page.getByText(/Ask the designer/)).toBeVisible();
    expect(await last(page, 'surface')).toMatchObject({
      name: 'Back wall',
      width: { text: `5' 3-1/2"`, value: '63.5', unit: 'in' },
      height: { value: '96', unit: 'in' },
      retarder: 'yes',
    });
  });

  await test.step('a room, copied with its surfaces', async () => {
    await site.link('Copy the room').click();
    await field('Name of the room').fill('Main bath');
    await save();
    await expect(page.getByRole('heading', { name: 'Main bath' })).toBeVisible();
    const { room } = await last(page, 'room');
    expect(await last(page, 'surface')).toMatchObject({ name: 'Floor', room });
    expect(entriesOf(await readStored(page)).filter(({ body }) => body.kind === 'surface' && body.data['room'] === room)).toHaveLength(2);
  });

  await test.step('two materials, one past its use-by, with a photo of its label', async () => {
    for (const [what, name, useBy] of [
      ['membrane-sheet', 'Grey sheet', '1 Mar 2020'],
      ['mortar', 'White mortar', ''],
    ] as const) {
      await page.goto(`${setup}/material`);
      await field('What it is').selectOption(MATERIAL[what]());
      await field('Name').fill(name);
      await field('Lot').fill('L 7');
      await field('Use by').fill(useBy);
      if (useBy !== '') await expect(page.getByText('Past its use-by')).toBeVisible();
      await field('Packages opened').fill('2');
      await save();
      await expect(page.getByText('Photo of the label', { exact: true })).toBeVisible();
    }
    const { material } = await last(page, 'material');
    const picture = await label();
    await page.getByLabel('Photo of the label').setInputFiles({ name: 'label.jpg', mimeType: 'image/jpeg', buffer: picture });
    await expect(site.saved).toBeVisible();
    expect(await last(page, 'shot')).toMatchObject({ material, shows: ['label'], picture: { sha256: sha256Hex(picture) } });
  });

  await test.step('a data sheet as PDF', async () => {
    await page.goto(`${setup}/sheet`);
    await field('Title').fill('Grey sheet, data sheet');
    await field('Edition').fill('edition 7');
    await save();
    await expect(page.getByText(m.setup_no_file())).toBeVisible();
    await page
      .getByLabel(m.setup_sheet_files())
      .setInputFiles({ name: 'offer.txt', mimeType: 'application/pdf', buffer: Buffer.from('an offer, no sheet') });
    await expect(site.fault('not-a-page')).toBeVisible();
    await page.getByLabel(m.setup_sheet_files()).setInputFiles({ name: 'sheet.pdf', mimeType: 'application/pdf', buffer: PDF });
    await page.getByLabel('Grey sheet', { exact: true }).check();
    await save();
    await heading('Data sheets');
    const sha256 = sha256Hex(PDF);
    expect(await last(page, 'data-sheet')).toMatchObject({
      title: 'Grey sheet, data sheet',
      edition: 'edition 7',
      files: [{ sha256, type: 'application/pdf', bytes: PDF.length }],
    });
    expect((await readStored(page)).blobs[sha256]).toBe(sha256);
  });

  await test.step('a pair that nobody names is a deviation', async () => {
    await page.goto(`${setup}/pairs`);
    const pair = page.getByRole('region', { name: 'Grey sheet with White mortar' });
    await pair.getByRole('button', { name: 'Not named' }).click();
    await expect(pair.getByText('Not named: kept as a deviation')).toBeVisible();
    const entries = entriesOf(await readStored(page));
    const [said, deviation] = entries.slice(-2);
    expect([said!.body.kind, deviation!.body.kind]).toEqual(['pair', 'deviation']);
    expect(deviation!.body.data).toMatchObject({ against: said!.body.id, what: 'Grey sheet / White mortar' });
    await field('Page or letter').fill('page 3');
    await pair.getByRole('button', { name: 'In the sheet' }).click();
    await expect(pair.getByText(`${CHOICE['named.in-sheet']()}, page 3`)).toBeVisible();
  });

  await test.step('limits: a least and a most, moisture in its scale, one from a published rule', async () => {
    await page.goto(`${setup}/limit`);
    await field('Limit on').selectOption(MEASURE.recoat());
    await field('At least h').fill('24');
    await field('At most h').fill('4');
    await field('Page, edition').fill('page 4');
    await save();
    await expect(page.getByText(m.setup_max_below_min())).toBeVisible();
    await field('At least h').fill('4');
    await field('At most h').fill('24');
    await save();
    await heading('Limits');
    expect(await last(page, 'limit')).toMatchObject({
      what: 'recoat',
      min: '4',
      max: '24',
      unit: 'h',
      source: { kind: 'data-sheet', text: 'page 4' },
    });

    await site.link('Add a limit').click();
    await field('Limit on').selectOption(MEASURE.moisture());
    await field('At most %').fill('101');
    await field('Meter scale').selectOption(SCALE['rh-in-hole']());
    await field('Page, edition').fill('page 1');
    await field('At most %').fill('75');
    await save();
    await heading('Limits');
    expect(await last(page, 'limit')).toMatchObject({ what: 'moisture', max: '75', scale: 'rh-in-hole' });

    await site.link('From published rules').click();
    await choose('IRC and IPC family');
    await field('Edition in force here').fill('2021');
    await page.getByLabel(new RegExp(MEASURE['flood-depth']())).check();
    await site.button('Add 1 limit').click();
    await heading('Limits');
    expect(await last(page, 'limit')).toMatchObject({
      what: 'flood-depth',
      min: '2',
      max: null,
      unit: 'in',
      source: { kind: 'code', text: 'IPC 312.9; 2021' },
    });
  });

  await test.step('a system and a rule of the crew, and the level of proof', async () => {
    await page.goto(`${setup}/systems`);
    await expect(page.getByText(m.reason_seam_hidden()).first()).toBeVisible();
    await follow('Add a system');
    await field('Name').fill('Ours');
    for (const step of ['scrape', 'liquid-coat', 'band-seams'] as const) await site.button(STEP[step]()).click();
    await save();
    await heading('Systems');
    expect(await last(page, 'own-system')).toMatchObject({ name: 'Ours', steps: ['scrape', 'liquid-coat', 'band-seams'] });

    await page.goto(`${setup}/proof`);
    await follow('Add a rule');
    await field('Name').fill('Valve collar, close');
    await save();
    await expect(page.getByText(m.setup_no_place())).toBeVisible();
    await page.getByLabel(PLACE.wall(), { exact: true }).check();
    await field('Reason').fill('It leaked once.');
    await save();
    await heading('Proof');
    await expect(page.getByText('Valve collar, close').first()).toBeVisible();
    expect(await last(page, 'own-rule')).toMatchObject({ step: 'band-seams', want: 'shot', places: ['wall'], reason: 'It leaked once.' });
    await page.getByRole('radio', { name: new RegExp(`^${PROOF_LEVEL.warranty()}`) }).check();
    await save();
    await heading('Set-up');
    expect(await last(page, 'job')).toMatchObject({ name: 'Elm Street 12', proof: 'warranty' });
  });

  await test.step('the job under another name, and a surface taken back', async () => {
    await page.goto(`${setup}/job`);
    await field('Name of the job').fill('');
    await save();
    await expect(page.getByText(m.setup_empty())).toBeVisible();
    await field('Name of the job').fill('Calle 12 🛁 حمام');
    await field('Permit number').fill('P-12');
    await save();
    await heading('Set-up');
    expect(await last(page, 'job')).toMatchObject({ name: 'Calle 12 🛁 حمام', permit: 'P-12', proof: 'warranty', units: 'in' });

    await page.goto(`${setup}/rooms`);
    await page
      .getByRole('link', { name: /^Floor/ })
      .last()
      .click();
    await site.button('Take it back').click();
    await heading('Rooms and surfaces');
    await expect(page.getByRole('link', { name: /^Floor/ })).toHaveCount(1);
  });
});

/** Each page of the set-up and its title. */
const PAGES: readonly (readonly [path: string, title: (facts: object, options: { locale: Lang }) => string])[] = [
  ['', m.page_setup],
  ['/job', m.cell_job],
  ['/rooms', m.setup_rooms],
  ['/room', m.field_room],
  ['/surface', m.field_surface],
  ['/materials', m.setup_materials],
  ['/material', m.field_material],
  ['/sheets', m.setup_sheets],
  ['/sheet', m.field_sheet],
  ['/pairs', m.setup_pairs],
  ['/limits', m.limits],
  ['/limit', m.field_limit],
  ['/starters', m.setup_starters],
  ['/systems', m.setup_systems],
  ['/own-system', m.kind_own_system],
  ['/proof', m.setup_proof],
  ['/own-rule', m.kind_own_rule],
];

test('every page of the set-up speaks Spanish on a Spanish phone', async ({ browser, baseURL }) => {
  const page = await browser.newPage({ ...PHONE.es, baseURL: baseURL!, serviceWorkers: 'block' });
  const site = new Site(page, 'es');
  await site.openJobs();
  const id = await site.startJob({ name: 'Baño del pasillo' });
  for (const [path, title] of PAGES) {
    await page.goto(`/job/${id}/setup${path}`);
    await expect(site.heading).toHaveText(title({}, { locale: 'es' }));
  }
  // One word is the same in both.
  expect(PAGES.filter(([, title]) => title({}, { locale: 'en' }) === title({}, { locale: 'es' })).map(([path]) => path)).toEqual([
    '/material',
  ]);
  await page.context().close();
});
