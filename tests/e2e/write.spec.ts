import { expect, type Locator, type Page } from '@playwright/test';
import { fieldsOf, FORM_KINDS, type FormField, type FormKind } from '#lib/job/forms.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { known } from '#lib/record/kinds.ts';
import { KIND } from '#lib/words/codes.ts';
import { fieldWord } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { job, limit, plantedSite, surface, type Planted } from './planted.ts';
import { entriesOf, readDraft, readStored } from './stored.ts';
import { test } from './test.ts';

// A busy machine is no fault of a test.
test.describe.configure({ mode: 'parallel', timeout: 240_000 });

const ID = 'hall-bath';
const FLOOR = 'Floor';
const waitOf = (id: string, hours: number): Planted => {
  const from = Date.now() - 3_600_000;
  const utc = (ms: number) => new Date(ms).toISOString();
  return {
    id,
    kind: 'wait',
    data: {
      what: 'before-flooding',
      surfaces: ['floor'],
      fromUtc: utc(from),
      readyUtc: utc(from + hours * 3_600_000),
      latestUtc: null,
      limit: 'limit-before-flooding',
    },
  };
};
/** A job with something for every form to speak of. */
const JOB: readonly Planted[] = [
  job('Hall bath'),
  { kind: 'person', data: { person: 'ben', name: 'Ben Ortiz' } },
  surface('floor', FLOOR, 'floor'),
  surface('back', 'Back wall', 'wall'),
  limit('overlap', '2', null, 'in'),
  limit('before-flooding', '24', null, 'h'),
  limit('pot-life', null, '60', 'min'),
  { kind: 'material', data: { material: 'bag', what: 'mortar', name: 'Grey mortar', lot: 'L-7', useBy: null } },
  { id: 'short', kind: 'reading', data: { what: 'overlap', surface: 'floor', said: { text: '1', value: '1', unit: 'in' }, how: 'tape' } },
  { id: 'pail', kind: 'mix', data: { material: 'bag', surfaces: [] } },
  {
    id: 'weather',
    kind: 'conditions',
    data: {
      air: { text: '70', value: '70', unit: 'F' },
      humidity: { text: '50', value: '50', unit: '%' },
      lowest: { text: '50', value: '50', unit: 'F' },
    },
  },
  waitOf('cure', 24),
];

/** What is answered to a field, and how the entry then says it. */
const AMOUNT: Readonly<Record<string, string>> = {
  air: '68',
  humidity: '45',
  surface: '66',
  lowest: '52',
  highest: '71',
  powder: '25',
  water: '3.5',
  height: '24',
  moisture: '18',
  took: '2',
};

async function answer(form: Locator, kind: FormKind, name: string, field: FormField): Promise<unknown> {
  const label = fieldWord(kind, name)!({});
  const box = (text: string) => form.getByRole('textbox', { name: text });
  const group = form.getByRole('group', { name: label, exact: true });
  switch (field.type) {
    case 'words':
    case 'line':
      await box(label).fill(`${kind} ${name} ñ`);
      return `${kind} ${name} ñ`;
    case 'amount':
      await box(`${label} (`).fill(AMOUNT[name]!);
      return expect.objectContaining({ value: AMOUNT[name], text: AMOUNT[name] });
    case 'money':
      await box(label).fill('85.50 usd');
      return { minor: '8550', currency: 'USD' };
    case 'choice': {
      const code = name === 'step' ? 'corners' : field.codes[0]!;
      await group.getByRole('radio').nth(field.codes.indexOf(code)).check();
      return code;
    }
    case 'yes-no':
      await group.getByRole('radio').first().check();
      return true;
    case 'surfaces':
      await group.getByLabel(FLOOR, { exact: true }).check();
      return ['floor'];
    case 'day':
      return expect.stringMatching(/^\d{4}-\d\d-\d\d$/);
    case 'entries':
      await group.getByRole('checkbox').first().check();
      return [expect.any(String)];
    case 'entry':
    case 'material':
      await group.getByRole('radio').last().check();
      return expect.any(String);
    case 'signature': {
      const paper = form.getByRole('img', { name: m.sign_strokes({ n: 0 }) });
      // Clear of the bar that stays at the foot of the page.
      await paper.evaluate((one) => one.scrollIntoView({ block: 'center' }));
      const at = (await paper.boundingBox())!;
      const mouse = form.page().mouse;
      await mouse.move(at.x + 40, at.y + at.height / 2);
      await mouse.down();
      await mouse.move(at.x + 120, at.y + at.height / 3, { steps: 4 });
      await mouse.up();
      await form.getByRole('img', { name: m.sign_strokes({ n: 1 }) }).waitFor();
      return expect.objectContaining({ type: 'image/png' });
    }
  }
}

const kept = (page: Page) => page.locator('[data-kept]');
/** The last entry of a kind that this phone wrote itself. */
const lastOf = async (page: Page, kind: FormKind) =>
  entriesOf(await readStored(page)).findLast(({ body }) => body.kind === kind && body.device !== 'phone-b')!.body;

test('one entry of each kind that people state, without network, and its words in both languages', async ({ site, context }) => {
  const { page } = site;
  await plantedSite(site, ID, JOB);
  await site.openJobs();
  await site.untilOffline();
  await context.setOffline(true);
  const ids = new Map<FormKind, string>();
  const said = new Map<FormKind, Record<string, unknown>>();

  await page.goto(`/job/${ID}/write`);
  for (const kind of FORM_KINDS) {
    await test.step(kind, async () => {
      await page.locator(`a[href$="kind=${kind}"]`).click();
      const form = page.locator('form');
      const answers: Record<string, unknown> = {};
      for (const [name, field] of fieldsOf(kind)) answers[name] = await answer(form, kind, name, field);
      await site.button(m.save()).click();
      ids.set(kind, (await kept(page).getAttribute('data-kept'))!);
      // Whom a name is of nobody types: whoever holds this phone.
      said.set(kind, kind === 'person' ? { ...answers, person: expect.any(String) } : answers);
      await kept(page).getByRole('link', { name: m.page_write() }).click();
    });
  }

  const stored = await readStored(page);
  const entries = entriesOf(stored);
  expect(verifyChains(entries)).toEqual([]);
  for (const kind of FORM_KINDS) {
    const entry = entries.find(({ body }) => body.id === ids.get(kind))!;
    expect(known(entry).kind, kind).toBe(kind);
    expect(entry.body.data, kind).toEqual(said.get(kind));
    const signature = entry.body.data['signature'] as { sha256: string } | undefined;
    if (signature !== undefined) expect(stored.blobs[signature.sha256], kind).toBe(signature.sha256);
  }
  // A pail starts its clock, a patch its cure.
  expect(entries.flatMap(({ body }) => (body.kind === 'wait' && body.device !== 'phone-b' ? [body.data['what']] : [])).toSorted()).toEqual([
    'before-flooding',
    'pot-life',
  ]);

  for (const locale of ['en', 'es'] as const) {
    await page.evaluate((lang) => localStorage.setItem('layerbook-settings', JSON.stringify({ lang })), locale);
    await page.goto(`/job/${ID}/log`);
    for (const kind of FORM_KINDS) {
      const row = page.locator(`[id="${ids.get(kind)}"]`);
      await expect(row.getByRole('button').first()).toContainText(KIND[kind]({}, { locale }));
      for (const [name] of fieldsOf(kind)) await expect(row).toContainText(fieldWord(kind, name)!({}, { locale }));
    }
  }
  expect(FORM_KINDS.filter((kind) => KIND[kind]({}, { locale: 'en' }) === KIND[kind]({}, { locale: 'es' }))).toEqual([]);
});

test.describe('what stands in the way', () => {
  test.use({ serviceWorkers: 'block' });

  test('is said under its field, and nothing typed is lost, not by a page thrown away either', async ({ site }) => {
    const { page } = site;
    await plantedSite(site, ID, JOB);
    await page.goto(`/job/${ID}/write?kind=deviation`);
    const what = page.getByRole('textbox', { name: fieldWord('deviation', 'what')!({}) });
    await what.fill('Lap short by the drain');
    await site.button(m.save()).click();
    await expect(site.fault('no-surface')).toContainText(m.write_fault_no_surface());
    expect(m.write_fault_no_surface({}, { locale: 'es' })).not.toBe(m.write_fault_no_surface({}, { locale: 'en' }));
    await expect.poll(() => readDraft(page, ['write', ID, 'deviation'])).toContain('Lap short by the drain');
    await page.reload();
    await expect(what).toHaveValue('Lap short by the drain');
    await page.getByLabel(FLOOR, { exact: true }).check();
    await site.button(m.save()).click();
    await kept(page).waitFor();
    await expect(what).toHaveValue('');
    expect((await lastOf(page, 'deviation')).data).toMatchObject({ what: 'Lap short by the drain', surfaces: ['floor'], against: null });
    await expect.poll(() => readDraft(page, ['write', ID, 'deviation'])).toBe('null');
  });

  test('a batch no bag takes is asked about, and kept by the second touch', async ({ site }) => {
    const { page } = site;
    await plantedSite(site, ID, JOB);
    await page.goto(`/job/${ID}/write?kind=mix`);
    const type = (name: string, text: string) => page.getByRole('textbox', { name: `${fieldWord('mix', name)!({})} (` }).fill(text);
    await type('powder', '50');
    await type('water', '65');
    await site.button(m.save()).click();
    await expect(page.getByText(m.write_water_much(), { exact: true })).toBeInViewport();
    await expect(kept(page)).toHaveCount(0);
    await site.button(m.save()).click();
    await kept(page).waitFor();
    expect((await lastOf(page, 'mix')).data).toMatchObject({ powder: { value: '50' }, water: { value: '65' } });
  });

  test('conditions are carried over and marked so; the dew point is said where it matters', async ({ site }) => {
    const { page } = site;
    await plantedSite(site, ID, JOB);
    await page.goto(`/job/${ID}/write?kind=conditions`);
    const field = (name: string) => page.getByRole('textbox', { name: `${fieldWord('conditions', name)!({})} (` });
    const last = () => lastOf(page, 'conditions');
    await expect(field('air')).toHaveValue('70');
    await expect(field('lowest')).toHaveValue('');
    await expect(page.getByText(m.write_carried_over({ time: '~' }).split('~')[0]!)).toHaveCount(2);
    await expect(page.getByTestId('dew-point')).toHaveCount(0);
    await field('surface').fill('52');
    await expect(page.getByTestId('dew-point')).toContainText('51 °F');
    await site.button(m.save()).click();
    await kept(page).waitFor();
    expect((await last()).data).toMatchObject({ from: 'weather', surface: { value: '52', unit: 'F' } });
    expect((await last()).refs).toContain('weather');
    // Tapped twice, it is kept once.
    await site.button(m.save()).click();
    await site.button(m.write_measured_now()).click();
    await field('air').fill('-5');
    await site.button(m.save()).click();
    await expect(kept(page)).toBeVisible();
    expect((await last()).data).toEqual({ air: { text: '-5', value: '-5', unit: 'F' } });
    expect(entriesOf(await readStored(page)).filter(({ body }) => body.kind === 'conditions')).toHaveLength(1 + 2);
    // A form leads back to where it was opened from.
    await page.goto(`/job/${ID}/callback`);
    await site.link(m.callback_write()).click();
    await site.link(m.part_back()).click();
    await expect(page).toHaveURL(/\/callback$/);
  });
});
